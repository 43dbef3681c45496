import { makeFinding, printable } from '../findings/index.js';
import { locate } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { countOf, listSome } from './wording.js';

/** Names the segments that the dictionary does not know: makers add their own. */
export const unknownSegmentsCheck: Check = {
  codes: ['unknown-segment'],
  summary: 'Which segments are not in the dictionary: they are kept and shown, and nothing is made of them.',
  reference: 'common practice: makers add segments of their own',
  run(read) {
    const { unknown } = read.index;
    if (unknown.length === 0) return NOTHING;
    const ids = [...new Set(unknown.map((line) => read.block.id(line)))];
    const names = listSome(ids.map((id) => printable(id, 10)));
    return [
      makeFinding(
        'unknown-segment',
        `${countOf(unknown.length, 'segment is', 'segments are')} not in the dictionary and left as they are: ${names}.`,
        locate(read, unknown[0]!),
      ),
    ];
  },
};
