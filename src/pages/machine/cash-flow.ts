import { type Difference, type Interval, valueOrNothing } from '../../interval/index.js';
import { add, type Minor, subtract } from '../../model/index.js';
import type { CashAnchor } from '../frame/index.js';

/** `no-counter`: the machine counts no such thing, which is not the same as 0. */
export type PieceState = 'known' | 'not-known' | 'no-counter';

/** One piece of a flow. */
export interface FlowPiece {
  /** Two or three words. */
  readonly label: string;
  /** Minor units, 0 or more: what would be below 0 stands on the other side. Null unless its state is `known`. */
  readonly amount: Minor | null;
  readonly state: PieceState;
  /** Whether it is what no counter explains. */
  readonly isUnexplained: boolean;
  /** The figure it is; null for one that is worked out here. */
  readonly figure: CashAnchor | null;
  /** What to know of it. */
  readonly note: string | null;
}

/** Money that came to a place, and where it went from there. Both sides come to the same where all is known. */
export interface Flow {
  readonly name: 'cash-in' | 'tubes' | 'customers';
  readonly title: string;
  readonly ins: readonly FlowPiece[];
  readonly outs: readonly FlowPiece[];
}

/** How the cash of an interval flowed: where it went, what the tubes did, what it was for. */
export function flowCash(interval: Interval): readonly Flow[] {
  return [flowOfCashIn(interval), flowOfTubes(interval), flowOfCustomers(interval)];
}

function flowOfCashIn({ cash, differences: moved }: Interval): Flow {
  const { cashIn, toCashBox, toTubes } = moved;
  const areOneTime = cashIn.floor === toCashBox.floor && cashIn.floor === toTubes.floor;
  const rest = areOneTime ? subtract(cash.cashIn, add(cash.toCashBox, cash.toTubes, cash.bills)) : null;
  const note = areOneTime
    ? 'Cash in less cash box, tubes and bills.'
    : 'The counters do not all cover the same time, so nothing is taken from one to the other.';
  const sides = new Sides();
  sides.in(piece('Cash in', 'cashIn', cash.cashIn, [cashIn]));
  sides.out(piece('Cash box', 'toCashBox', cash.toCashBox, [toCashBox]));
  sides.out(piece('Tubes', 'toTubes', cash.toTubes, [toTubes]));
  sides.out(piece('Bill stacker', 'bills', cash.bills, []));
  sides.out(unexplained(rest, null, note));
  return { name: 'cash-in', title: 'Where the cash went that came in', ...sides.both() };
}

function flowOfTubes({ cash, differences: moved }: Interval): Flow {
  const sides = new Sides();
  sides.in(piece('Tubes before', 'tubesFrom', cash.tubesFrom, []));
  sides.in(piece('Cash to tubes', 'toTubes', cash.toTubes, [moved.toTubes]));
  sides.in(piece('Filled by hand', 'filled', cash.filled, [moved.filled]));
  sides.out(piece('Change', 'dispensed', cash.dispensed, [moved.dispensed]));
  sides.out(piece('Out by hand', 'byHand', cash.byHand, [moved.byHand]));
  sides.out(piece('Tubes now', 'tubesTo', cash.tubesTo, []));
  const note =
    'Tubes now less what they should hold; going out: coins are gone. Coming in: there are more than counted.';
  sides.in(unexplained(cash.tubeDifference, 'tubeDifference', note));
  return { name: 'tubes', title: 'What the tubes took and gave', ...sides.both() };
}

function flowOfCustomers({ cash, differences: moved }: Interval): Flow {
  const { credited1, credited2 } = moved;
  const sides = new Sides();
  sides.in(piece('Cash in', 'cashIn', cash.cashIn, [moved.cashIn]));
  sides.out(piece('Cash sales', 'cashSales', cash.cashSales, [moved.cashSales]));
  sides.out(piece('Change', 'dispensed', cash.dispensed, [moved.dispensed]));
  sides.out(piece('Overpaid', 'overpaid', cash.overpaid, [moved.overpaid]));
  sides.out(piece('To cards', 'credited', cash.credited, [credited1, credited2]));
  const note = cash.isCashBookedAsCard
    ? 'This machine books cash sales as card sales, so the two sides cannot be set against each other.'
    : 'Credit that stands, or money that no counter explains.';
  sides.out(unexplained(cash.customerDifference, 'customerDifference', note));
  return { name: 'customers', title: 'What customers’ cash was for', ...sides.both() };
}

function piece(label: string, figure: CashAnchor, amount: Minor | null, counters: readonly Difference[]): FlowPiece {
  const base = { label, figure, isUnexplained: false };
  const note = counters.some(({ floor }) => floor) ? 'At least this much.' : null;
  if (amount !== null) return { ...base, amount, state: 'known', note };
  return hasNoCounter(counters)
    ? { ...base, amount, state: 'no-counter', note: 'The machine has no such counter.' }
    : { ...base, amount, state: 'not-known', note: 'The findings say why.' };
}

/** Whether the machine has none of some counters: the rule by which the interval takes them for none at all. */
export function hasNoCounter(counters: readonly Difference[]): boolean {
  return counters.length > 0 && counters.every((one) => one.value === null && valueOrNothing(one) === 0);
}

function unexplained(amount: Minor | null, figure: CashAnchor | null, note: string): FlowPiece {
  const state = amount === null ? 'not-known' : 'known';
  return { label: 'Not explained', amount, state, isUnexplained: true, figure, note };
}

/** Both sides of a flow: a piece below 0 goes over to the other, since a flow has no width below 0. */
class Sides {
  readonly #ins: FlowPiece[] = [];
  readonly #outs: FlowPiece[] = [];

  in(one: FlowPiece): void {
    this.#put(one, this.#ins, this.#outs);
  }

  out(one: FlowPiece): void {
    this.#put(one, this.#outs, this.#ins);
  }

  #put(one: FlowPiece, side: FlowPiece[], other: FlowPiece[]): void {
    if (one.amount !== null && one.amount < 0) other.push({ ...one, amount: -one.amount });
    else side.push(one);
  }

  both(): Pick<Flow, 'ins' | 'outs'> {
    return { ins: this.#ins, outs: this.#outs };
  }
}
