import { SEGMENT } from '../dictionary/index.js';
import { makeFinding, type Place, printable } from '../findings/index.js';
import { locate, type Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { describeReception } from './reception.js';
import { countOf, listSome, READ_AGAIN } from './wording.js';

const PA1 = SEGMENT.PA1.index;
const PA7 = SEGMENT.PA7.index;

/** Says how far a capture got that ends before its SE, and what that leaves out. */
export const cutShortCheck: Check = {
  codes: ['cut-short'],
  summary: 'Whether the read ends with its SE, else how far it got and what that leaves out.',
  reference: 'ANSI X12: a set ends with SE; what to say of a cut one: common practice',
  run(read, context) {
    if (read.isComplete) return NOTHING;
    const last = read.lastWholeLine;
    const column = last < 0 ? null : columnAt(read, last);
    const gaps = describeGaps(read, context, column);
    const place: Place = last < 0 ? { read: read.number } : locate(read, last);
    return [
      makeFinding(
        'cut-short',
        `The capture ends too early, ${describeLast(read, last, column)}: ${gaps.join('; ')}.${describeReception(context)}`,
        { ...place, ...(column === null ? {} : { column }), advice: READ_AGAIN },
      ),
    ];
  },
};

function describeLast(read: Read, last: number, column: string | null): string {
  if (last < 0) return 'before any segment came whole';
  const what = printable(read.block.id(last), 10);
  const where = column === null ? '' : `, of column ${printable(column, 20)}`;
  return `and the last whole segment is ${what} on line ${read.block.lineNumber(last)}${where}`;
}

/** The column whose group a line belongs to; null when the line is no product segment. */
function columnAt(read: Read, line: number): string | null {
  const kind = read.block.kind(line);
  if (kind < PA1 || kind > PA7) return null;
  return read.columns.findLast((column) => column.line(PA1) <= line)?.id ?? null;
}

function describeGaps(read: Read, { lastGood }: CheckContext, column: string | null): string[] {
  const gaps: string[] = [];
  if (!read.has('G85')) gaps.push('without G85 its integrity is unknown');
  if (lastGood !== null) {
    const missing = lastGood.columns.map(({ id }) => id).filter((id) => read.column(id) === null);
    if (missing.length > 0) {
      const names = listSome(missing.map((id) => printable(id, 20)));
      gaps.push(
        `${countOf(missing.length, 'column')} of the last good read ${missing.length === 1 ? 'is' : 'are'} missing (${names})`,
      );
    }
  } else if (column !== null) {
    gaps.push(`no column after ${printable(column, 20)} came`);
  } else if (read.columns.length === 0) {
    gaps.push('no column came');
  }
  gaps.push('the end (SE) is missing');
  return gaps;
}
