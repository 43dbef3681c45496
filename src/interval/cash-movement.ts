import type { Finding } from '../findings/index.js';
import { add, addAll, type Minor, subtract } from '../model/index.js';
import { readBills } from './bills.js';
import { judgeCash } from './cash-findings.js';
import type { Difference } from './difference.js';
import { largestCredit } from './largest-credit.js';
import type { ReadPair } from './read-pair.js';
import { readTubes, valueOrNothing } from './tubes.js';

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
  const credited = sumOfPresent(moved.credited1, moved.credited2);
  const isCashBookedAsCard = recognisesCashAsCard(pair, moved, credited);
  const changeBySales = isCashBookedAsCard ? null : changeBySalesOf(moved, credited);
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
    cashSales: moved.cashSales.value,
    cardSales: sumOfPresent(moved.cardSales1, moved.cardSales2).value,
    tokenSales: moved.tokenSales.value,
    credited: credited.value,
    tubesFrom: tubes.from,
    tubesTo: tubes.to,
    tubeDifference: tubes.difference,
    customerDifference: pair.restart === null ? subtract(changeBySales, tubes.change) : null,
    isCashBookedAsCard,
  };
  const findings = [...bills.findings, ...judgeCash(pair, cash, tubes)];
  return { cash, differences: moved, bills: bills.difference, findings };
}

/** A sum, and whether there was anything to add: a machine may have one of two counters, both or none. */
interface Sum {
  readonly value: Minor | null;
  readonly isAbsent: boolean;
}

function sumOfPresent(...differences: readonly Difference[]): Sum {
  const present = differences.filter(({ why, floor }) => why !== 'absent' || floor);
  const isAbsent = present.length === 0;
  return { value: isAbsent ? null : addAll(present.map(({ value }) => value)), isAbsent };
}

/**
 * What change must have been by the customers' side: cash in − cash sales − overpaid − credited to cards. Null where one
 * of them is not known, or they do not all cover the same time.
 */
function changeBySalesOf(moved: CashDifferences, credited: Sum): Minor | null {
  const { cashIn, cashSales, overpaid, credited1, credited2 } = moved;
  const isMixed = [cashSales, overpaid, credited1, credited2].some(
    ({ value, floor }) => value !== null && floor !== cashIn.floor,
  );
  const toCards = credited.isAbsent ? 0 : credited.value;
  return isMixed ? null : subtract(cashIn.value, add(cashSales.value, valueOrNothing(overpaid), toCards));
}

/**
 * An operator can set some machines to book cash sales as card sales (Evoca 9200 manual p. 87, N&W Opera Touch manual
 * p. 65): cash came in and was kept, CA2 did not move, and the card counters moved by at least as much. A little cash may
 * also be a credit that stands: then the card sales must be that amount and nothing else.
 */
function recognisesCashAsCard(pair: ReadPair, moved: CashDifferences, credited: Sum): boolean {
  const card = sumOfPresent(moved.cardSales1, moved.cardSales2).value;
  const dispensed = moved.dispensed.value;
  const hand = valueOrNothing(moved.byHand);
  if (moved.cashSales.value !== 0 || card === null || card === 0 || dispensed === null) return false;
  const spent = add(valueOrNothing(moved.overpaid), credited.isAbsent ? 0 : credited.value);
  // CA403 may include what was dispensed by hand, or not: cash that no customer got back.
  return [dispensed, subtract(dispensed, hand)].some((change) => {
    const kept = subtract(moved.cashIn.value, add(change, spent));
    return kept !== null && kept > 0 && (card === kept || (card > kept && kept > largestCredit(pair)));
  });
}
