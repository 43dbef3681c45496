import { type CashMovement, type Interval, valueOrNothing } from '../interval/index.js';
import { add, type CountRow, type Minor, subtract } from '../model/index.js';
import type { CashByKind, ExpectedLine } from './settlement.js';

/** What should be in a bag, and what it is made of. */
export interface ExpectedCash {
  readonly cash: CashByKind;
  readonly lines: readonly ExpectedLine[];
  /** Whether it is the least it can have been. */
  readonly isFloor: boolean;
}

/** Says how hand moves are taken: from the counters, the sheet, or not at all. */
export interface HandMoves {
  /** The rows of the bags that are settled together. */
  readonly counts: readonly CountRow[];
  readonly ignore: boolean;
}

/**
 * What should be in the bag since the last collection: bills; coins to the cash box, plus coins paid out by hand, less
 * coins filled in by hand. What left the machine less what was put in is what the driver answers for (conservation);
 * coins in tubes are the float and stay. Where the count sheet says what was paid out, filled or issued as float, that
 * counts.
 *
 * @param pieces - the intervals from the last collection to the visit, in order; their sum is taken
 */
export function expectCash(pieces: readonly Interval[], hand: HandMoves): ExpectedCash {
  const sum = (of: (cash: CashMovement) => Minor | null): Minor | null => add(...pieces.map(({ cash }) => of(cash)));
  const lines: ExpectedLine[] = [
    { what: 'to-cash-box', kind: 'coins', amount: sum((cash) => cash.toCashBox), source: 'counters' },
  ];
  if (!hand.ignore) {
    const paidOut = fromSheet(hand.counts, 'paidOut');
    const filled = fromSheet(hand.counts, 'filled');
    const float = fromSheet(hand.counts, 'floatIssued');
    lines.push(
      handLine('paid-out', paidOut, sumOfCounter(pieces, 'byHand'), 1),
      handLine('filled', filled, sumOfCounter(pieces, 'filled'), -1),
    );
    if (float !== null) lines.push({ what: 'float-issued', kind: 'coins', amount: float, source: 'sheet' });
  }
  lines.push({ what: 'bills', kind: 'bills', amount: sum((cash) => cash.bills), source: 'counters' });
  const total = (kind: 'coins' | 'bills'): Minor | null =>
    add(...lines.filter((line) => line.kind === kind).map((line) => line.amount));
  return { cash: { coins: total('coins'), bills: total('bills') }, lines, isFloor: pieces.some(isFloorOfCash) };
}

/** Whether the cash figures themselves are floors; a column's sales may be one where the cash is exact. */
function isFloorOfCash({ pair, differences }: Interval): boolean {
  if (pair.restart !== null) return true;
  const { toCashBox, cashIn, byHand, filled } = differences;
  return [toCashBox, cashIn, byHand, filled].some(({ floor }) => floor);
}

function handLine(what: 'paid-out' | 'filled', sheet: Minor | null, counter: Minor | null, sign: 1 | -1): ExpectedLine {
  const amount = sheet ?? counter;
  const signed = amount === null || sign === 1 ? amount : subtract(0, amount);
  return { what, kind: 'coins', amount: signed, source: sheet === null ? 'counters' : 'sheet' };
}

/** The sum over the pieces, where a machine that never books such moves has none to add. */
function sumOfCounter(pieces: readonly Interval[], counter: 'byHand' | 'filled'): Minor | null {
  return add(...pieces.map(({ differences }) => valueOrNothing(differences[counter])));
}

/** What the sheet gives over all bags; null when none of them says it. */
function fromSheet(counts: readonly CountRow[], field: 'paidOut' | 'filled' | 'floatIssued'): Minor | null {
  const given = counts.map((count) => count[field]).filter((amount) => amount !== null);
  return given.length === 0 ? null : add(...given);
}
