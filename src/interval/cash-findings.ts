import { type Finding, type FindingDetail, makeFinding } from '../findings/index.js';
import { describeMoney, type Minor, subtract } from '../model/index.js';
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

/** Credit at the earlier and the later read of an interval that the intervals beside it show too. */
export interface MirroredCredit {
  readonly before: Minor;
  readonly after: Minor;
}

/** An interval's cash in which a customer's credit may stand. */
export interface CreditStanding {
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly cash: CashMovement;
  /** How often the power failed; null is not known. */
  readonly outages: number | null;
}

const NOT_MIRRORED: MirroredCredit = { before: 0, after: 0 };

/**
 * Cash in − change = cash sales + overpaid + credited to cards, give or take the credit standing at either read. More than
 * the largest single payment can not be a credit standing.
 */
function judgeCustomers(pair: ReadPair, cash: CashMovement): Finding[] {
  const { customerDifference, cashIn } = cash;
  if (customerDifference === null || customerDifference === 0) return [];
  if (isCreditable(pair, customerDifference)) {
    const { currency, decimals } = pair;
    const outages = pair.difference('EA702', 'EA701').value;
    return tellCredit({ currency, decimals, cash, outages }, baseDetail(pair, 'CA305'), NOT_MIRRORED);
  }
  const amount = pair.money(Math.abs(customerDifference));
  const notCounted = pair.difference('CA802', 'CA801').why === 'absent' ? ' Overpaid cash is not counted here.' : '';
  const message =
    customerDifference > 0
      ? `Of ${pair.money(cashIn!)} cash in, ${amount} is in neither sales, change nor overpaid cash.${notCounted}`
      : `Sales, change and overpaid cash come to ${amount} more than the ${pair.money(cashIn!)} cash in.`;
  return [makeFinding('cash-sales-difference', message, baseDetail(pair, 'CA201'))];
}

const isCreditable = (pair: ReadPair, difference: Minor): boolean => Math.abs(difference) <= largestCredit(pair);

/**
 * An amount that may be a customer's credit at one of the reads: a note as far as the interval beside it mirrors it, else a
 * doubt with what stays.
 */
export function tellCredit(
  standing: CreditStanding,
  detail: FindingDetail,
  { before, after }: MirroredCredit,
): Finding[] {
  const { cash, currency, decimals } = standing;
  const money = (amount: Minor): string => describeMoney(amount, decimals, currency);
  const rest = cash.customerDifference! + before - after;
  const at = [
    before > 0 ? `${money(before)} at the earlier read` : '',
    after > 0 ? `${money(after)} at the later read` : '',
  ];
  const stood = at.filter((part) => part !== '').join(' and ');
  const accepted: Finding[] =
    stood === ''
      ? []
      : [
          makeFinding(
            'credit-standing',
            `A customer's credit stood: ${stood}; the interval beside it shows the same.`,
            detail,
          ),
        ];
  if (rest === 0) return accepted;
  return [
    ...accepted,
    makeFinding('credit-standing', sayOpenCredit(standing, money(Math.abs(rest)), rest), {
      ...detail,
      severity: mayBeBookedAsCard(cash, rest) ? 'note' : 'doubt',
      advice: LOOK_BACK,
    }),
  ];
}

const LOOK_BACK =
  'A credit shows the other way round at the read beside it. If it does not, or amounts of one sign come again, have bag and machine looked at by a second person.';

/** Whether cash that was kept may be in the card sales: then nothing is missing (domain rule: no shortage). */
function mayBeBookedAsCard({ cashSales, cardSales }: CashMovement, rest: Minor): boolean {
  return rest > 0 && cashSales === 0 && cardSales !== null && cardSales >= rest;
}

function sayOpenCredit({ cash, outages: failures }: CreditStanding, amount: string, rest: Minor): string {
  if (rest < 0) {
    return `${amount} more was sold or given back than came in, and the interval before does not show a customer's credit of it at the earlier read.`;
  }
  const outages = failures ?? 0;
  const orCard = mayBeBookedAsCard(cash, rest) ? ', or this machine books cash sales as card sales' : '';
  const times = outages === 1 ? 'once' : `${outages} times`;
  const orPower = outages > 0 ? `; the power failed ${times}, and some machines count credit lost by that apart` : '';
  return `${amount} of the cash in is in neither sales nor change: it may be a customer's credit at the later read, which the interval after has to show${orCard}${orPower}.`;
}

function sayCashAsCard(pair: ReadPair, { isCashBookedAsCard }: CashMovement): Finding[] {
  if (!isCashBookedAsCard) return [];
  const message =
    'Cash came in, no cash sales were counted, and the card sales cover it: this machine books cash sales as card sales.';
  const advice = 'Count the bag as usual; the card sales of this machine hold its cash sales too.';
  return [makeFinding('cash-as-card', message, { ...baseDetail(pair, 'CA201'), advice })];
}
