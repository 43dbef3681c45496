import { type Finding, makeFinding } from '../findings/index.js';
import { add, describeMoney, type Minor, subtract } from '../model/index.js';
import { readBills } from './bills.js';
import type { Difference } from './difference.js';
import { baseDetail } from './interval-finding.js';
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

/** Put the cash counters of an interval together and say what does not fit. */
export function moveCash(pair: ReadPair): { cash: CashMovement; differences: CashDifferences; findings: Finding[] } {
  const moved = measureCash(pair);
  const cashIn = moved.cashIn.value;
  const bills = readBills(pair, { cashIn, toCashBox: moved.toCashBox.value, toTubes: moved.toTubes.value });
  const isCashBookedAsCard = recognisesCashAsCard(moved);
  const credited = sumOfPresent(moved.credited1, moved.credited2);
  const notChange = add(moved.cashSales.value, valueOrNothing(moved.overpaid), credited ?? 0);
  const changeBySales = isCashBookedAsCard ? null : subtract(cashIn, notChange);
  const tubes = readTubes(pair, { ...moved, changeBySales });
  const cash: CashMovement = {
    cashIn,
    toCashBox: moved.toCashBox.value,
    toTubes: moved.toTubes.value,
    bills: bills.value,
    dispensed: tubes.change,
    byHand: moved.byHand.value,
    filled: moved.filled.value,
    overpaid: moved.overpaid.value,
    cashSales: moved.cashSales.value,
    cardSales: sumOfPresent(moved.cardSales1, moved.cardSales2),
    tokenSales: moved.tokenSales.value,
    credited,
    tubesFrom: tubes.from,
    tubesTo: tubes.to,
    tubeDifference: tubes.difference,
    customerDifference: subtract(changeBySales, tubes.change),
    isCashBookedAsCard,
  };
  const findings = [...bills.findings, ...judgeTubes(pair, cash), ...judgeCustomers(pair, cash)];
  if (isCashBookedAsCard) findings.push(sayCashAsCard(pair));
  return { cash, differences: moved, findings };
}

/** The sum of counters of which a machine may have one, both or none; null when it has none or one is not known. */
function sumOfPresent(...differences: readonly Difference[]): Minor | null {
  const present = differences.filter(({ why }) => why !== 'absent');
  return present.length === 0 ? null : add(...present.map(({ value }) => value));
}

/**
 * An operator can set some machines to book cash sales as card sales (Evoca 9200 manual p. 87, N&W Opera Touch manual
 * p. 65): cash came in and stayed, CA2 did not move, and the card counters moved by at least as much.
 */
function recognisesCashAsCard(moved: CashDifferences): boolean {
  const kept = subtract(subtract(moved.cashIn.value, moved.dispensed.value), valueOrNothing(moved.overpaid));
  const card = sumOfPresent(moved.cardSales1, moved.cardSales2);
  return moved.cashSales.value === 0 && kept !== null && kept > 0 && card !== null && card >= kept;
}

function judgeTubes(pair: ReadPair, { tubeDifference, tubesTo }: CashMovement): Finding[] {
  if (tubeDifference === null || tubeDifference === 0) return [];
  const isEstimate = pair.to.profile?.tubesEstimated === true;
  const should = subtract(tubesTo, tubeDifference);
  const direction = tubeDifference < 0 ? 'less' : 'more';
  const amount = money(pair, Math.abs(tubeDifference));
  const held = `The tubes hold ${money(pair, tubesTo!)}, ${amount} ${direction} than the ${money(pair, should!)} they should`;
  const reason = isEstimate
    ? 'this mechanism only estimates its tubes'
    : tubeDifference < 0
      ? 'a jam, coins taken out by hand, or a fill not entered in full'
      : 'a fill that was not entered, or coins that came back';
  return [
    makeFinding('tube-difference', `${held}: ${reason}.`, {
      ...baseDetail(pair, 'CA1501'),
      ...(isEstimate ? { severity: 'note' as const } : {}),
    }),
  ];
}

/**
 * Cash in − change = cash sales + overpaid + credited to cards, give or take the credit standing at either read. More than
 * the largest single payment can not be a credit standing.
 */
function judgeCustomers(pair: ReadPair, { customerDifference, cashIn }: CashMovement): Finding[] {
  if (customerDifference === null || customerDifference === 0 || pair.isRestarted) return [];
  const amount = money(pair, Math.abs(customerDifference));
  if (Math.abs(customerDifference) <= largestCredit(pair)) {
    const message = `${amount} of the cash ${customerDifference > 0 ? 'in is not in sales or change' : 'in sales was put in earlier'}: a customer's credit stood at one of the reads.`;
    return [makeFinding('credit-standing', message, baseDetail(pair, 'CA305'))];
  }
  const message = `Of ${money(pair, cashIn!)} cash in, ${amount} ${customerDifference > 0 ? 'is not accounted for by' : 'too much is claimed by'} sales, change and overpayment.`;
  return [makeFinding('cash-sales-difference', message, baseDetail(pair, 'CA201'))];
}

/** What may stand as credit: the largest bill or coin the machine lists, or its dearest price where it lists none. */
function largestCredit({ to: { read } }: ReadPair): Minor {
  let largest = 0;
  for (const id of ['CA11', 'CA14'] as const) {
    for (const line of read.lines(id)) largest = Math.max(largest, read.block.number(line, 1) ?? 0);
  }
  for (const column of read.columns) largest = Math.max(largest, column.price ?? 0);
  return largest;
}

function sayCashAsCard(pair: ReadPair): Finding {
  return makeFinding(
    'cash-as-card',
    'Cash came in, no cash sales were counted, and the card sales cover it: this machine books cash sales as card sales.',
    {
      ...baseDetail(pair, 'CA201'),
      advice: 'Count the bag as usual; the card sales of this machine hold its cash sales too.',
    },
  );
}

const money = (pair: ReadPair, amount: Minor): string => describeMoney(amount, pair.to.decimals, pair.to.currency);
