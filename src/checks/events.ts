import { ELEMENT, SEGMENT } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, makeFinding, printable } from '../findings/index.js';
import { COLUMN_STRIDE, locate, type Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { countOf } from './wording.js';

const EA2 = SEGMENT.EA2.index;
const MA5 = SEGMENT.MA5.index;
const FIX = adviseAtCabinet('Have this fault looked at before you leave, or report it.', 'food');

/** Says which faults the machine reports as active. */
export const eventsCheck: Check = {
  codes: ['event-active'],
  summary: 'Whether the machine reports faults that are active now: EA2 marked so, or failure bits in MA5.',
  reference: 'EA204: memory; MA5 FAIL and PA107: manual L0190D, p. 42',
  run(read) {
    const findings: Finding[] = [];
    for (const line of read.index.many) {
      const kind = read.block.kind(line);
      const finding = kind === EA2 ? describeEvent(read, line) : kind === MA5 ? describeFailure(read, line) : null;
      if (finding !== null) findings.push(finding);
    }
    addUnplugged(read, findings);
    return findings.length === 0 ? NOTHING : findings;
  },
};

function describeEvent(read: Read, line: number): Finding | null {
  const { block } = read;
  if (block.number(line, 4) !== 1) return null;
  const code = printable(block.text(line, 1) || 'without a code', 30);
  const times = [
    [block.number(line, 2), 'since the last reset'],
    [block.number(line, 3), 'in all'],
  ] as const;
  const known = times.flatMap(([count, since]) => (count === null ? [] : [`${countOf(count, 'time')} ${since}`]));
  const counted = known.length === 0 ? '' : ` (${known.join(', ')})`;
  return makeFinding('event-active', `The machine reports event ${code} as active${counted}.`, {
    ...locate(read, line, 4),
    received: code,
    ...FIX,
  });
}

/** FAIL carries a sum of failure bits; 0, or nothing, is none. */
function describeFailure(read: Read, line: number): Finding | null {
  const { block } = read;
  if (block.text(line, 1) !== 'FAIL') return null;
  const bits = block.text(line, 2) ?? '';
  if (/^0*$/.test(bits)) return null;
  return makeFinding('event-active', `The machine reports failure bits ${printable(bits, 20)} (MA5 FAIL).`, {
    ...locate(read, line, 2),
    received: printable(bits, 20),
    ...FIX,
  });
}

const STATUS = ELEMENT.PA107.position;

/** PA107 = 1 is a motor that is not plugged in on the machine of the source; what it means elsewhere is the maker's. */
function addUnplugged(read: Read, findings: Finding[]): void {
  const { block, index } = read;
  for (let at = 0; at < index.columns.length; at += COLUMN_STRIDE) {
    const line = index.columns[at]!;
    if (block.elementCount(line) < STATUS || block.text(line, STATUS) !== '1') continue;
    const column = block.text(line, 1)!;
    findings.push(
      makeFinding(
        'event-active',
        `Column ${printable(column, 20)} reports status 1: on some machines, a motor not plugged in.`,
        {
          ...locate(read, line, STATUS),
          column,
          severity: 'note',
          ...adviseAtCabinet('Try the column with a test vend.'),
        },
      ),
    );
  }
}
