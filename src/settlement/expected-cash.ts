import { type Moved, type Step, valueOrNothing, valueToSubtract } from '../interval/index.js';
import { addAll, type CountRow, type Minor, subtract } from '../model/index.js';
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
 * coins in tubes are the float and stay. Where the count sheet says what was paid out, filled or issued to the driver as
 * float, that counts.
 *
 * @param pieces - the intervals from the last collection to the visit, in order; their sum is taken
 */
export function expectCash(pieces: readonly Step[], hand: HandMoves): ExpectedCash {
  const box = pieces.map(({ cash }) => cash.toCashBox);
  const lines: ExpectedLine[] = [
    { what: 'to-cash-box', kind: 'coins', amount: addAll(box), source: 'counters' },
    ...(hand.ignore ? [] : listHandMoves(pieces, hand.counts)),
    { what: 'bills', kind: 'bills', amount: addAll(pieces.map(valueOfBills)), source: 'counters' },
  ];
  const total = (kind: 'coins' | 'bills'): Minor | null =>
    addAll(lines.filter((line) => line.kind === kind).map(({ amount }) => amount));
  const rests = lines.filter(({ source }) => source === 'counters').map(({ what }) => what);
  return {
    cash: { coins: total('coins'), bills: total('bills') },
    lines,
    isFloor: pieces.some((piece) => rests.some((what) => isFloor(piece, what))),
  };
}

/** Whether nothing moved that would be in a bag. */
export function isNothing({ lines, isFloor }: ExpectedCash): boolean {
  return !isFloor && lines.every(({ amount }) => amount === 0);
}

function listHandMoves(pieces: readonly Step[], counts: readonly CountRow[]): ExpectedLine[] {
  const given = counts.map(({ floatIssued }) => floatIssued).filter((amount) => amount !== null);
  return [
    moveByHand('paid-out', pieces, counts),
    moveByHand('filled', pieces, counts),
    ...(given.length === 0
      ? []
      : [{ what: 'float-issued', kind: 'coins', amount: addAll(given), source: 'sheet' } as const]),
  ];
}

const HAND = {
  'paid-out': { field: 'paidOut', counter: 'byHand', sign: 1 },
  filled: { field: 'filled', counter: 'filled', sign: -1 },
} as const;

/**
 * The sheet's amount where every bag has one, else the counters'. Where only some of joint bags have one it counts for
 * them alone, and what the counters moved for the others is not known, unless both come to the same.
 */
function moveByHand(what: keyof typeof HAND, pieces: readonly Step[], counts: readonly CountRow[]): ExpectedLine {
  const { field, counter, sign } = HAND[what];
  const amountOf = sign === 1 ? valueOrNothing : valueToSubtract;
  const byCounter = addAll(pieces.map(({ differences }) => amountOf(differences[counter])));
  const given = counts.map((count) => count[field]).filter((amount) => amount !== null);
  const bySheet = addAll(given);
  const line = (amount: Minor | null, source: ExpectedLine['source']): ExpectedLine => ({
    what,
    kind: 'coins',
    amount: sign === 1 ? amount : subtract(0, amount),
    source,
  });
  if (given.length === 0 || (given.length < counts.length && bySheet === byCounter)) return line(byCounter, 'counters');
  return line(given.length < counts.length ? null : bySheet, 'sheet');
}

/** A machine that takes no bills (roster) and has no counter of them took none. */
function valueOfBills({ cash, differences, to }: Step): Minor | null {
  if (cash.bills !== null || to.machine?.hasBills !== false) return cash.bills;
  const hasCounter = [differences.billsStated, differences.billsOther].some(({ why }) => why !== 'absent');
  return hasCounter ? null : 0;
}

/** Whether a line's counters show the least it can have been; a column's sales may be a floor where the cash is exact. */
function isFloor(step: Step, what: ExpectedLine['what']): boolean {
  const { differences, cash } = step;
  const isLeast = (moved: Moved): boolean => moved.floor && !isSinceServiceRead(step, moved);
  if (what === 'to-cash-box') return isLeast(differences.toCashBox);
  if (what === 'paid-out') return isLeast(differences.byHand);
  if (what === 'filled') return isLeast(differences.filled);
  const { billsStated, billsOther, cashIn, toTubes } = differences;
  if (billsStated.value !== null && billsStated.value === cash.bills) return isLeast(billsStated);
  // Bills given as a number are worth what cash in leaves over.
  return cash.bills !== null && [billsOther, cashIn, toTubes].some(isLeast);
}

/**
 * A machine without lifetime counters may have been cleared by anybody in between. Where it is known to clear them on
 * service reads only that would have been a collection, as the box meter that is cleared at the pick-up (SEM 9900X manual,
 * p. 17): what it shows since is what lies in the box.
 */
function isSinceServiceRead({ to, reset }: Step, { basis }: Moved): boolean {
  const isKnown = reset === 'cleared' || reset === 'kept';
  return basis === 'interval' && to.profile?.resets === 'service-read' && isKnown;
}
