import { ELEMENT } from '../dictionary/index.js';
import { makeFinding, printable } from '../findings/index.js';
import { isSameNumber } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { READ_AGAIN } from './wording.js';

/** Holds the number in the trailer of the set against the one in its header. */
export const controlNumberCheck: Check = {
  codes: ['control-number'],
  summary: 'Whether SE repeats the number that ST gives.',
  reference: 'ANSI X12: SE02 repeats ST02',
  run(read) {
    if (read.line('ST') < 0 || !read.isComplete) return NOTHING;
    const opened = read.text(ELEMENT.ST02);
    let closed = read.text(ELEMENT.SE02);
    if (opened === closed) return NOTHING;
    // The header of the next capture in the file may hang on this line, when a line ending is missing between them.
    if (read.block.elementCount(read.line('SE')) > 2) closed = closed?.replace(/(DXS|ST)$/, '') ?? null;
    if (isSameNumber(opened, closed)) return NOTHING;
    const [expected, received] = [opened, closed].map((text) => (text === null ? 'nothing' : printable(text, 40)));
    return [
      makeFinding('control-number', `The set begins as number ${expected} and ends as number ${received}.`, {
        ...read.place(ELEMENT.SE02),
        expected: expected!,
        received: received!,
        advice: READ_AGAIN,
      }),
    ];
  },
};
