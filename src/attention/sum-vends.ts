import type { ElementName } from '../dictionary/index.js';
import { buildInterval, type ColumnSales, type Interval } from '../interval/index.js';
import { add, type Count } from '../model/index.js';
import type { Roster } from '../sheets/index.js';

/** What one column vended over several intervals. Null is not known. */
export interface Vends {
  readonly sold: Count | null;
  readonly test: Count | null;
  readonly free: Count | null;
  readonly doubts: readonly VendDoubt[];
}

/** Why such a sum is doubtful; see `StockDoubt`. */
export type VendDoubt = 'floor' | 'restart' | 'absent' | 'new-column';

/**
 * Add up what a column vended from interval to interval. Where a counter is missing at a read in between, the two ends are
 * set against each other; test and free vends of a machine that counts none are none.
 *
 * @param pieces - in order, without a gap; null where two reads gave no interval
 */
export function sumVends(column: string, pieces: readonly (Interval | null)[], roster: Roster): Vends {
  const known = pieces.filter((piece) => piece !== null);
  // Two reads without an interval are of two machines: nothing of one may be taken from the other.
  if (known.length < pieces.length) return { sold: null, test: null, free: null, doubts: ['absent'] };
  const byPiece = sumPieces(column, known);
  if (byPiece.sold !== null || known.length < 2) return byPiece;
  const direct = buildInterval(known[0]!.from, known.at(-1)!.to, roster);
  const whole = sumPieces(column, [direct]);
  return whole.sold === null ? byPiece : whole;
}

function sumPieces(column: string, pieces: readonly Interval[]): Vends {
  const doubts = new Set<VendDoubt>();
  let sum: Omit<Vends, 'doubts'> = { sold: 0, test: 0, free: 0 };
  for (const piece of pieces) {
    const sales = piece.columns.find((one) => one.column === column) ?? null;
    for (const doubt of doubtsOf(piece, sales)) doubts.add(doubt);
    sum = {
      sold: add(sum.sold, sales?.sold ?? null),
      test: add(sum.test, sales === null ? null : countedOrNone(sales.test, piece, column, TEST)),
      free: add(sum.free, sales === null ? null : countedOrNone(sales.free, piece, column, FREE)),
    };
  }
  if (sum.sold === null || sum.test === null || sum.free === null) doubts.add('absent');
  return { ...sum, doubts: [...doubts] };
}

const TEST = ['PA301', 'PA303'] as const;
const FREE = ['PA401', 'PA403'] as const;

/** A counter that is in neither read is one that this machine does not keep. */
function countedOrNone(
  count: Count | null,
  { from, to }: Interval,
  column: string,
  elements: readonly ElementName[],
): Count | null {
  if (count !== null) return count;
  const isKept = [from, to].some(({ read }) => elements.some((name) => read.column(column)?.text(name)));
  return isKept ? null : 0;
}

function doubtsOf({ pair }: Interval, sales: ColumnSales | null): VendDoubt[] {
  if (sales === null) return ['new-column'];
  const doubts: VendDoubt[] = [];
  if (!sales.inFrom || !sales.inTo) doubts.push('new-column');
  if (pair.restart !== null) doubts.push('restart');
  else if (sales.floor) doubts.push('floor');
  return doubts;
}
