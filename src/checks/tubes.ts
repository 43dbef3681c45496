import { ELEMENT, SEGMENT } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, makeFinding } from '../findings/index.js';
import { locate, type Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { listSome, writeMoney } from './wording.js';

const CA17 = SEGMENT.CA17.index;
const FILL = adviseAtCabinet('Fill the tubes, and enter the fill in the machine so that it is counted.');

/** Says when there is no change to give: all tubes empty (a doubt), or some of them (a note). */
export const tubesCheck: Check = {
  codes: ['change-short'],
  summary: 'Whether the coin tubes hold anything to give change from.',
  reference: 'memory (CA15, CA17); what is short: common practice',
  run(read, context) {
    if (context.machine?.hasCash === false) return NOTHING;
    const total = read.integer(ELEMENT.CA1501);
    if (total === 0) return [describeEmpty(read, context)];
    const empty = read.index.many.filter((line) => read.block.kind(line) === CA17 && read.block.number(line, 3) === 0);
    return empty.length === 0 ? NOTHING : [describeSome(read, empty, context)];
  },
};

const howKnown = ({ profile }: CheckContext): string =>
  profile?.tubesEstimated === true ? ' (an estimate: the coin mechanism knows only low and full)' : '';

function describeEmpty(read: Read, context: CheckContext): Finding {
  return makeFinding('change-short', `The tubes hold no coins: there is no change to give${howKnown(context)}.`, {
    ...read.place(ELEMENT.CA1501),
    ...FILL,
  });
}

function describeSome(read: Read, lines: readonly number[], context: CheckContext): Finding {
  const values = lines.map((line) => {
    const value = read.block.number(line, 2);
    return value === null ? 'a coin of unknown value' : writeMoney(value, context);
  });
  const what = lines.length === 1 ? 'The tube for' : 'The tubes for';
  return makeFinding(
    'change-short',
    `${what} ${listSome(values)} ${lines.length === 1 ? 'is' : 'are'} empty: change may run short${howKnown(context)}.`,
    { ...locate(read, lines[0]!, 3), severity: 'note', ...FILL },
  );
}
