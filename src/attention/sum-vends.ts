import type { Step, StepColumn } from '../interval/index.js';
import { add, type Count } from '../model/index.js';

/** What one column vended over several steps. Null is not known. */
export interface Vends {
  readonly sold: Count | null;
  readonly test: Count | null;
  readonly free: Count | null;
  readonly doubts: readonly VendDoubt[];
}

/** Why such a sum is doubtful; see `StockDoubt`. */
export type VendDoubt = 'floor' | 'restart' | 'absent' | 'new-column';

/**
 * Add up what a column vended from read to read. Where a counter is missing at a read in between, the two ends are set
 * against each other; test and free vends of a machine that counts none are none.
 *
 * @param pieces - in order, without a gap; null where two reads gave no step
 * @param whole - all of the time in one; null where that is not at hand
 */
export function sumVends(column: string, pieces: readonly (Step | null)[], whole: () => Step | null): Vends {
  const known = pieces.filter((piece) => piece !== null);
  // Two reads without a step are of two machines: nothing of one may be taken from the other.
  if (known.length < pieces.length) return { sold: null, test: null, free: null, doubts: ['absent'] };
  const byPiece = sumPieces(column, known);
  if (byPiece.sold !== null || known.length < 2) return byPiece;
  const direct = whole();
  const inOne = direct === null ? byPiece : sumPieces(column, [direct]);
  return inOne.sold === null ? byPiece : inOne;
}

function sumPieces(column: string, pieces: readonly Step[]): Vends {
  const doubts = new Set<VendDoubt>();
  let sum: Omit<Vends, 'doubts'> = { sold: 0, test: 0, free: 0 };
  for (const piece of pieces) {
    const sales = columnIn(piece, column);
    for (const doubt of doubtsOf(piece, sales)) doubts.add(doubt);
    sum = {
      sold: add(sum.sold, sales?.sold ?? null),
      test: add(sum.test, sales === null ? null : (sales.test ?? (sales.keepsTest ? null : 0))),
      free: add(sum.free, sales === null ? null : (sales.free ?? (sales.keepsFree ? null : 0))),
    };
  }
  if (sum.sold === null || sum.test === null || sum.free === null) doubts.add('absent');
  return { ...sum, doubts: [...doubts] };
}

const COLUMNS = new WeakMap<Step, ReadonlyMap<string, StepColumn>>();

/** A column of a step, looked up as often as there are columns. */
function columnIn(step: Step, column: string): StepColumn | null {
  let columns = COLUMNS.get(step);
  if (columns === undefined) {
    columns = new Map(step.columns.map((one) => [one.column, one]));
    COLUMNS.set(step, columns);
  }
  return columns.get(column) ?? null;
}

function doubtsOf({ restart }: Step, sales: StepColumn | null): VendDoubt[] {
  if (sales === null) return ['new-column'];
  const doubts: VendDoubt[] = [];
  if (!sales.inFrom || !sales.inTo) doubts.push('new-column');
  if (restart !== null) doubts.push('restart');
  else if (sales.floor) doubts.push('floor');
  return doubts;
}
