import { type Finding, makeFinding, printable } from '../findings/index.js';
import { locate, type Misplaced, type Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { countOf, READ_AGAIN } from './wording.js';

/** Says which segments came again that should come once, and which belong to no column. */
export const placementCheck: Check = {
  codes: ['repeated-segment', 'orphan-segment'],
  summary: 'Whether segments and columns that should come once do, and product segments follow a column.',
  reference: 'memory (EVA-DTS): a PA1 names the column of the PA segments after it',
  run(read) {
    const { misplaced } = read.index;
    return misplaced.length === 0 ? NOTHING : groupAlike(read, misplaced).map((group) => describe(read, group));
  },
};

/** Misplaced segments of one kind are told together; columns each for themselves. */
function groupAlike(read: Read, misplaced: readonly Misplaced[]): Misplaced[][] {
  const groups = new Map<string, Misplaced[]>();
  for (const one of misplaced) {
    const name = one.why === 'repeated-column' ? read.block.text(one.line, 1) : read.block.kind(one.line);
    const key = `${one.why} ${name}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()];
}

function describe(read: Read, group: readonly Misplaced[]): Finding {
  const { line, why } = group[0]!;
  const place = locate(read, line);
  const times = countOf(group.length, 'time');
  switch (why) {
    case 'repeated':
      return makeFinding(
        'repeated-segment',
        `${place.segment} comes again (${times}), though it should come once; the first one was taken.`,
        { ...place, advice: READ_AGAIN },
      );
    case 'repeated-column': {
      const column = read.block.text(line, 1) ?? '';
      return makeFinding(
        'repeated-segment',
        `Column ${printable(column, 20)} is named again (${times}); what came first was taken.`,
        { ...place, column, advice: READ_AGAIN },
      );
    }
    default:
      return makeFinding(
        'orphan-segment',
        `${place.segment} stands without a column to belong to (${times}); it was left out.`,
        { ...place, advice: READ_AGAIN },
      );
  }
}
