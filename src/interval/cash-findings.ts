import { type Finding, makeFinding } from '../findings/index.js';
import { type Minor, subtract } from '../model/index.js';
import type { CashMovement } from './cash-movement.js';
import { baseDetail } from './interval-finding.js';
import { largestCredit } from './largest-credit.js';
import type { ReadPair } from './read-pair.js';
import type { TubeReading } from './tubes.js';

/** Findings about cash: tubes that do not hold what they should, customers' money that is not all accounted for. */
export function judgeCash(pair: ReadPair, cash: CashMovement, tubes: TubeReading): Finding[] {
  return [...judgeTubes(pair, tubes), ...judgeCustomers(pair, cash), ...sayCashAsCard(pair, cash)];
}

function judgeTubes(pair: ReadPair, { difference, to, either }: TubeReading): Finding[] {
  if (either === null && (difference === null || difference === 0)) return [];
  const isEstimate = pair.to.profile?.tubesEstimated === true;
  const detail = { ...baseDetail(pair, 'CA1501'), ...(isEstimate ? { severity: 'note' as const } : {}) };
  if (either !== null) {
    const [apart, included] = either.map((amount) => say(pair, amount));
    const message = `The tubes hold ${pair.money(to!)}: ${apart} they should, or ${included} they should if the change counted (CA403) includes what was dispensed by hand; nothing tells which.`;
    const advice = "A machine profile that says so ('dispensedIncludesByHand') settles it.";
    return [makeFinding('tube-difference', message, { ...detail, advice })];
  }
  const off = difference!;
  const should = subtract(to, off);
  const held = `The tubes hold ${pair.money(to!)}, ${pair.money(Math.abs(off))} ${off < 0 ? 'less' : 'more'} than the ${pair.money(should!)} they should`;
  const reason = isEstimate
    ? 'this mechanism only estimates its tubes'
    : off < 0
      ? 'a jam, or coins that were taken out, or entered as filled but not put in'
      : 'a fill that was not entered, or coins that came back';
  return [makeFinding('tube-difference', `${held}: ${reason}.`, detail)];
}

function say(pair: ReadPair, amount: Minor): string {
  if (amount === 0) return 'just what';
  return `${pair.money(Math.abs(amount))} ${amount < 0 ? 'less' : 'more'} than`;
}

/**
 * Cash in − change = cash sales + overpaid + credited to cards, give or take the credit standing at either read. More than
 * the largest single payment can not be a credit standing.
 */
function judgeCustomers(pair: ReadPair, { customerDifference, cashIn, cashSales, cardSales }: CashMovement): Finding[] {
  if (customerDifference === null || customerDifference === 0) return [];
  const amount = pair.money(Math.abs(customerDifference));
  const isMore = customerDifference > 0;
  const mayBeCard = isMore && cashSales === 0 && cardSales !== null && cardSales >= customerDifference;
  const orCard = mayBeCard ? ', or this machine books cash sales as card sales' : '';
  if (Math.abs(customerDifference) <= largestCredit(pair)) {
    const message = isMore
      ? `${amount} of the cash in is in neither sales nor change: a customer's credit stood at the later read${orCard}.`
      : `${amount} more was sold or given back than came in: a customer's credit stood at the earlier read.`;
    return [makeFinding('credit-standing', message, baseDetail(pair, 'CA305'))];
  }
  const notCounted = pair.difference('CA802', 'CA801').why === 'absent' ? ' Overpaid cash is not counted here.' : '';
  const message = isMore
    ? `Of ${pair.money(cashIn!)} cash in, ${amount} is in neither sales, change nor overpaid cash.${notCounted}`
    : `Sales, change and overpaid cash come to ${amount} more than the ${pair.money(cashIn!)} cash in.`;
  return [makeFinding('cash-sales-difference', message, baseDetail(pair, 'CA201'))];
}

function sayCashAsCard(pair: ReadPair, { isCashBookedAsCard }: CashMovement): Finding[] {
  if (!isCashBookedAsCard) return [];
  const message =
    'Cash came in, no cash sales were counted, and the card sales cover it: this machine books cash sales as card sales.';
  const advice = 'Count the bag as usual; the card sales of this machine hold its cash sales too.';
  return [makeFinding('cash-as-card', message, { ...baseDetail(pair, 'CA201'), advice })];
}
