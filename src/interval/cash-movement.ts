import type { Finding } from '../findings/index.js';
import { add, addAll, type Minor, subtract } from '../model/index.js';
import { readBills } from './bills.js';
import { judgeCash } from './cash-findings.js';
import { coversSameTime, type Difference, valueOrNothing, valueToSubtract } from './difference.js';
import { largestCredit } from './largest-credit.js';
import type { ReadPair } from './read-pair.js';
import { readTubes } from './tubes.js';

/** What cash did between two reads. Minor units; null is not known, never 0. */
export interface CashMovement {
  readonly cashIn: Minor | null;
  readonly toCashBox: Minor | null;
  readonly toTubes: Minor | null;
  readonly bills: Minor | null;
  /** Change to customers; `byHand` is apart, whatever the maker's counter includes. */
  readonly dispensed: Minor | null;
  readonly byHand: Minor | null;
  readonly filled: Minor | null;
  readonly overpaid: Minor | null;
  readonly cashSales: Minor | null;
  readonly cardSales: Minor | null;
  readonly tokenSales: Minor | null;
  /** Credited to cards for cash (DA4). */
  readonly credited: Minor | null;
  readonly tubesFrom: Minor | null;
  readonly tubesTo: Minor | null;
  readonly tubeDifference: Minor | null;
  /** Cash in less change, sales, overpaid and credited: credit standing, or not explained. */
  readonly customerDifference: Minor | null;
  /** Whether cash sales are booked as card sales on this machine. */
  readonly isCashBookedAsCard: boolean;
}

/** The counters of {@link CashMovement}, each with what it moved by. */
export interface CashDifferences {
  readonly cashIn: Difference;
  readonly toCashBox: Difference;
  readonly toTubes: Difference;
  readonly dispensed: Difference;
  readonly byHand: Difference;
  readonly filled: Difference;
  readonly overpaid: Difference;
  readonly cashSales: Difference;
  readonly cardSales1: Difference;
  readonly cardSales2: Difference;
  readonly tokenSales: Difference;
  readonly credited1: Difference;
  readonly credited2: Difference;
}

/** What every cash counter moved by. */
export function measureCash(pair: ReadPair): CashDifferences {
  return {
    cashIn: pair.difference('CA305', 'CA301'),
    toCashBox: pair.difference('CA306', 'CA302'),
    toTubes: pair.difference('CA307', 'CA303'),
    dispensed: pair.difference('CA403', 'CA401'),
    byHand: pair.difference('CA404', 'CA402'),
    filled: pair.difference('CA1002', 'CA1001'),
    overpaid: pair.difference('CA802', 'CA801'),
    cashSales: pair.difference('CA201', 'CA203'),
    cardSales1: pair.difference('DA201', 'DA203'),
    cardSales2: pair.difference('DB201', 'DB203'),
    tokenSales: pair.difference('TA201', 'TA203'),
    credited1: pair.difference('DA401', 'DA402'),
    credited2: pair.difference('DB401', 'DB402'),
  };
}

/** The cash of an interval, the counters it comes from, and what does not fit. */
export interface CashReading {
  readonly cash: CashMovement;
  readonly differences: CashDifferences;
  /** The counter of the bills, where they rest on one. */
  readonly bills: Difference | null;
  readonly findings: readonly Finding[];
}

/** Put the cash counters of an interval together and say what does not fit. */
export function moveCash(pair: ReadPair): CashReading {
  const moved = measureCash(pair);
  const bills = readBills(pair, moved);
  const cardSales = cardSalesOf(pair, moved);
  const isCashBookedAsCard = recognisesCashAsCard(pair, moved, cardSales);
  const changeBySales = isCashBookedAsCard ? null : changeBySalesOf(moved);
  const tubes = readTubes(pair, { ...moved, changeBySales });
  const cash: CashMovement = {
    cashIn: moved.cashIn.value,
    toCashBox: moved.toCashBox.value,
    toTubes: moved.toTubes.value,
    bills: bills.value,
    dispensed: tubes.change,
    byHand: moved.byHand.value,
    filled: moved.filled.value,
    overpaid: moved.overpaid.value,
    cashSales: cashSalesOf(pair, moved, cardSales),
    cardSales,
    tokenSales: moved.tokenSales.value,
    credited: creditedOf(moved),
    tubesFrom: tubes.from,
    tubesTo: tubes.to,
    tubeDifference: tubes.difference,
    customerDifference: pair.restart === null ? subtract(changeBySales, tubes.change) : null,
    isCashBookedAsCard,
  };
  const findings = [...bills.findings, ...judgeCash(pair, cash, tubes)];
  return { cash, differences: moved, bills: bills.difference, findings };
}

const isInNeither = ({ why }: Difference): boolean => why === 'absent';

/**
 * ΔDA2 and ΔDB2 together. A reader that is in neither read sold nothing, so that a machine without any sold nothing by card;
 * unless the roster says that it has one, whose counters are then missing.
 */
function cardSalesOf({ to }: ReadPair, { cardSales1, cardSales2 }: CashDifferences): Minor | null {
  const isNone = isInNeither(cardSales1) && isInNeither(cardSales2);
  if (isNone && to.machine?.hasCard === true) return null;
  return add(valueOrNothing(cardSales1), valueOrNothing(cardSales2));
}

/**
 * ΔCA2. A machine that takes no cash sold nothing for it: the roster says so, or, where it is silent, neither read has a
 * counter of cash and all sales (VA1) are those by card and token.
 */
function cashSalesOf(pair: ReadPair, moved: CashDifferences, cardSales: Minor | null): Minor | null {
  const { cashSales, cashIn, tokenSales } = moved;
  if (!isInNeither(cashSales)) return cashSales.value;
  const hasCash = pair.to.machine?.hasCash ?? null;
  if (hasCash !== null) return hasCash ? null : 0;
  const all = pair.difference('VA101', 'VA103').value;
  return isInNeither(cashIn) && all !== null && all === add(cardSales, valueOrNothing(tokenSales)) ? 0 : null;
}

/** ΔDA4 and ΔDB4 together; null where the machine credits nothing to cards. */
function creditedOf({ credited1, credited2 }: CashDifferences): Minor | null {
  return isInNeither(credited1) && isInNeither(credited2)
    ? null
    : add(valueOrNothing(credited1), valueOrNothing(credited2));
}

/**
 * What change must have been by the customers' side: cash in − cash sales − overpaid − credited to cards. Null where one
 * of them is not known, or they do not all cover the same time.
 */
function changeBySalesOf(moved: CashDifferences): Minor | null {
  const { cashIn, cashSales, overpaid, credited1, credited2 } = moved;
  const spent = [overpaid, credited1, credited2];
  if ([cashSales, ...spent].some((other) => other.value !== null && !coversSameTime(cashIn, other))) return null;
  return subtract(cashIn.value, add(cashSales.value, addAll(spent.map(valueToSubtract))));
}

/**
 * An operator can set some machines to book cash sales as card sales (Evoca 9200 manual p. 87, N&W Opera Touch manual
 * p. 65): cash came in and was kept, CA2 did not move, and the card counters moved by at least as much. A little cash may
 * also be a credit that stands: then the card sales must be that amount and nothing else.
 */
function recognisesCashAsCard(pair: ReadPair, moved: CashDifferences, card: Minor | null): boolean {
  const dispensed = moved.dispensed.value;
  const hand = valueOrNothing(moved.byHand);
  if (moved.cashSales.value !== 0 || card === null || card === 0 || dispensed === null) return false;
  const spent = addAll([moved.overpaid, moved.credited1, moved.credited2].map(valueToSubtract));
  // CA403 may include what was dispensed by hand, or not: cash that no customer got back.
  return [dispensed, subtract(dispensed, hand)].some((change) => {
    const kept = subtract(moved.cashIn.value, add(change, spent));
    return kept !== null && kept > 0 && (card === kept || (card > kept && kept > largestCredit(pair)));
  });
}
