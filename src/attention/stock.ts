import { type MachineHistory, measureBetween, type PlacedRead, type Step, type TakenRead } from '../interval/index.js';
import { add, bestTime, type Count, type LocalDateTime, type PlanRow, pushAll, subtract } from '../model/index.js';
import type { Read } from '../read/index.js';
import type { Roster } from '../sheets/index.js';
import { type FillBasis, type FillEvidence, findLastFill, type LastFill } from './find-fill.js';
import { judgeSoldOut, type SoldOut } from './judge-sold-out.js';
import { sumVends, type Vends } from './sum-vends.js';

/**
 * Why a count of what a column needs is doubtful. `no-fill-known`: there is no visit to count from. `visit-unread`: it was
 * visited since without a usable capture, so that what it needs is at most this. `floor`, `restart`: it vended at least
 * this. `absent`: a counter is missing. `new-column`: it was not there at the fill. `more-than-par`: more was vended than
 * a full column holds, so it was filled in between or the plan is wrong. `no-par`: it is filled up to what it held then.
 */
export type StockDoubt =
  | 'no-fill-known'
  | 'visit-unread'
  | 'floor'
  | 'restart'
  | 'absent'
  | 'new-column'
  | 'more-than-par'
  | 'no-par';

/** What one column holds and needs. Null is not known, never 0. */
export interface ColumnStock {
  readonly column: string;
  readonly product: string | null;
  readonly par: Count | null;
  readonly capacity: Count | null;
  /** Paid, test and free vends since the fill: each takes a product out. */
  readonly sold: Count | null;
  readonly test: Count | null;
  readonly free: Count | null;
  /** Par less what was vended, never below 0. */
  readonly left: Count | null;
  /** What brings it back to par. */
  readonly toFill: Count | null;
  readonly soldOut: SoldOut | null;
  readonly doubts: readonly StockDoubt[];
}

/** What the columns of one machine hold and need. */
export interface MachineStock {
  /** The read at the fill that is counted from; null when none is known. */
  readonly fill: PlacedRead | null;
  readonly fillBasis: FillBasis | null;
  /** A visit after that fill of which there is no usable capture. */
  readonly unreadVisitAt: LocalDateTime | null;
  /** The read that is counted up to. */
  readonly until: TakenRead;
  /** In the order of the machine. */
  readonly columns: readonly ColumnStock[];
}

/** What a machine's stock is worked out from. */
export interface StockEvidence extends FillEvidence, Pick<MachineHistory, 'contentsOf'> {
  /** Has the plan, and with it par and capacity. */
  readonly roster: Roster;
}

/**
 * What every column of a machine vended since its last fill, and so needs to be at par again.
 *
 * Counted from the lifetime counters of the read at the last service visit, which is taken to have filled to par unless
 * the captures list says otherwise. Where a count is doubtful its doubts say why.
 *
 * @returns null when the machine has no usable read, or the contents of its last one are not at hand
 */
export function measureStock(evidence: StockEvidence): MachineStock | null {
  const { ordered, stepTo, contentsOf, roster } = evidence;
  const latest = ordered.at(-1);
  const until = latest === undefined ? null : contentsOf(latest);
  if (until === null) return null;
  const last = findLastFill(evidence);
  const fill = ordered[last.position] ?? null;
  const piecesFrom = (position: number): (Step | null)[] =>
    ordered.slice(position + 1).map((placed) => stepTo.get(placed) ?? null);
  const start = startOfCount(ordered, last);
  const counted = piecesFrom(start);
  const whole = (): Step | null => measureBetween(evidence, ordered[start]!, latest!, roster);
  const sinceFill = piecesFrom(Math.max(0, last.position));
  const columns = until.read.columns.map(({ id }) => {
    const planned = (taken: PlacedRead): PlanRow | null =>
      taken.machine === null ? null : roster.planned(taken.machine.machine, id, bestTime(taken)?.slice(0, 10) ?? null);
    const measured = measureColumnStock(id, {
      vends: sumVends(id, counted, whole),
      until: until.read,
      plan: planned(until),
      planAtFill: fill === null ? null : planned(fill),
      last,
    });
    return {
      ...measured,
      soldOut: judgeSoldOut(measured, { fill, until, pieces: sinceFill, unreadVisitAt: last.unreadVisitAt }),
    };
  });
  return { fill, fillBasis: last.basis, unreadVisitAt: last.unreadVisitAt, until, columns };
}

/**
 * The read from which vends are counted: the fill. After a later visit that nobody read it is the last read before that,
 * from which it vended at most what is counted; without any fill there is nothing to count from.
 */
function startOfCount(ordered: readonly PlacedRead[], { position, unreadVisitAt }: LastFill): number {
  if (unreadVisitAt === null) return position < 0 ? ordered.length - 1 : position;
  const before = ordered.findLastIndex((taken) => (bestTime(taken) ?? '') < unreadVisitAt);
  return Math.max(before, position);
}

interface ColumnEvidence {
  readonly vends: Vends;
  readonly until: Read;
  readonly plan: PlanRow | null;
  readonly planAtFill: PlanRow | null;
  readonly last: LastFill;
}

function measureColumnStock(column: string, evidence: ColumnEvidence): Omit<ColumnStock, 'soldOut'> {
  const { vends, until, plan, planAtFill, last } = evidence;
  const found = until.column(column);
  const par = plan?.par ?? found?.number('PA105') ?? null;
  const capacity = plan?.capacity ?? found?.number('PA104') ?? null;
  const hasFill = last.position >= 0 || last.unreadVisitAt !== null;
  const vended = hasFill ? add(vends.sold, vends.test, vends.free) : null;
  // What it held after the fill, where the plan has another par since.
  const held = planAtFill?.par ?? par;
  const left = subtract(held, vended);
  const doubts: StockDoubt[] = [];
  if (!hasFill) doubts.push('no-fill-known');
  if (last.unreadVisitAt !== null) doubts.push('visit-unread');
  if (hasFill) pushAll(doubts, vends.doubts);
  if (left !== null && left < 0) doubts.push('more-than-par');
  if (hasFill && par === null) doubts.push('no-par');
  return {
    column,
    product: plan?.product ?? found?.text('PA103') ?? null,
    par,
    capacity,
    sold: hasFill ? vends.sold : null,
    test: hasFill ? vends.test : null,
    free: hasFill ? vends.free : null,
    left: left === null ? null : Math.max(0, left),
    toFill: needOf(par, left, vended),
    doubts,
  };
}

/** Up to par and no further; without a par, what was vended brings it back to what it held. */
function needOf(par: Count | null, left: Count | null, vended: Count | null): Count | null {
  if (par === null || left === null) return par === null ? vended : null;
  return Math.max(0, par - Math.max(0, left));
}
