import { add, addAll, largestOf, type Minor, smallestOf, subtract } from '../model/index.js';
import { countDays, haveCommonDay } from './days.js';
import type { DepositReason, DepositState } from './deposit-match.js';
import { isStated } from './deposit-order.js';
import { isRagged, type PlacedDeposit, type PlacedSale } from './place-stream.js';

/** Sales and deposits that stand against each other; either may be empty. */
export interface Group {
  readonly sales: readonly PlacedSale[];
  readonly deposits: readonly PlacedDeposit[];
}

/** How a group stands. */
export interface Verdict {
  readonly state: DepositState;
  readonly reason: DepositReason | null;
  /** Gross less sales, minor units. */
  readonly difference: Minor | null;
  readonly isAtLeast: boolean;
}

/** A group with its verdict. */
export interface JudgedGroup extends Group, Verdict {}

function verdict(
  state: DepositState,
  reason: DepositReason | null,
  difference: Minor | null = null,
  isAtLeast = false,
): Verdict {
  return { state, reason, difference, isAtLeast };
}

/** Runs with equal sums, and nothing else that would do. */
export function judgeEqual({ sales }: Group): Verdict {
  const reason = isEstimate(sales) ? 'cash-as-card' : isFloor(sales) ? 'sales-floor' : null;
  return verdict('matched', reason, 0);
}

/** Runs of which several readings are equally good. Each leaves something over, or it would be the only one. */
export function judgeSeveral(group: Group): Verdict {
  return verdict('unclear', 'equally-good', differenceOf(group));
}

/**
 * What is left between equal sums: put together by common days, the others alone. Equal sums that end inside of a day may be
 * chance, so nothing is claimed that they could explain.
 *
 * @param all - everything in the stream that may explain something, this group included: deposits that are proven to be for
 *   other sales do not
 */
export function judgeRest(group: Group, all: Group): JudgedGroup[] {
  return connect(group).flatMap((part) => {
    if (part.deposits.length === 0) return judgeLoneSales(part.sales, all);
    if (part.sales.length === 0) return part.deposits.map((deposit) => judgeLoneDeposit(deposit, all));
    return [{ ...part, ...compareGroup(part, all) }];
  });
}

/** Groups whose sales and deposits are linked by common days; sales that are linked to nothing come last, in one group. */
function connect({ sales, deposits }: Group): Group[] {
  const groups: { sales: Set<PlacedSale>; deposits: Set<PlacedDeposit> }[] = [];
  for (const deposit of deposits) {
    const paid = sales.filter((sale) => areLinked(sale, deposit));
    const linked = groups.filter((group) => paid.some((sale) => group.sales.has(sale)));
    for (const group of linked) groups.splice(groups.indexOf(group), 1);
    groups.push({
      sales: new Set([...linked.flatMap((group) => [...group.sales]), ...paid]),
      deposits: new Set([...linked.flatMap((group) => [...group.deposits]), deposit]),
    });
  }
  const isLinked = (sale: PlacedSale): boolean => groups.some((group) => group.sales.has(sale));
  const inOrder = groups.map((group): Group => {
    return { sales: sales.filter((sale) => group.sales.has(sale)), deposits: [...group.deposits] };
  });
  return [...inOrder, { sales: sales.filter((sale) => !isLinked(sale)), deposits: [] }];
}

const areLinked = (sale: PlacedSale, deposit: PlacedDeposit): boolean =>
  haveCommonDay(sale.dated.span, deposit.dated.span);

/** Sales without a deposit, those in a row with one verdict together. */
function judgeLoneSales(sales: readonly PlacedSale[], all: Group): JudgedGroup[] {
  const groups: JudgedGroup[] = [];
  for (const sale of sales) {
    const own = judgeLoneSale(sale, all);
    const last = groups.at(-1);
    const isInRow = last !== undefined && all.sales[all.sales.indexOf(sale) - 1] === last.sales.at(-1);
    if (!isInRow || last.state !== own.state || last.reason !== own.reason) {
      groups.push({ sales: [sale], deposits: [], ...own });
      continue;
    }
    const difference = add(last.difference, own.difference);
    groups[groups.length - 1] = { ...last, sales: [...last.sales, sale], difference };
  }
  return groups;
}

function judgeLoneSale(sale: PlacedSale, all: Group): Verdict {
  if (sale.open !== null) return verdict('open', sale.open);
  if (isEstimate([sale])) return verdict('unclear', 'cash-as-card');
  if (sale.dated.amount === null) return verdict('unclear', 'sales-not-known');
  const difference = 0 - sale.dated.amount;
  const mayBePaid = isRagged(sale) && all.deposits.some((deposit) => areLinked(sale, deposit));
  if (mayBePaid) return verdict('unclear', 'edges', difference);
  return verdict('missing', isFloor([sale]) ? 'sales-floor' : null, difference, isFloor([sale]));
}

/** A deposit with nothing that it can be for. */
export function judgeExtra(deposit: PlacedDeposit): JudgedGroup {
  return { sales: [], deposits: [deposit], ...verdict('extra', null, deposit.dated.amount) };
}

/** A deposit that may be for sales before the first read, or after the last. */
export function judgeOutside(deposit: PlacedDeposit): JudgedGroup {
  return { sales: [], deposits: [deposit], ...verdict('open', 'outside-reads') };
}

/** A deposit that stands alone. */
function judgeLoneDeposit(deposit: PlacedDeposit, all: Group): JudgedGroup {
  const { amount, mayBeLeft } = deposit.dated;
  const mayBeSold = all.sales.some((sale) => isRagged(sale) && areLinked(sale, deposit));
  if (mayBeLeft === null && !mayBeSold) return judgeExtra(deposit);
  if (mayBeLeft !== null) return judgeOutside(deposit);
  return { sales: [], deposits: [deposit], ...verdict('unclear', 'edges', amount) };
}

/** Sales and deposits of the same days whose sums are not equal, or not in order. */
function compareGroup(group: Group, all: Group): Verdict {
  const difference = differenceOf(group);
  if (difference === null) return verdict('unclear', isEstimate(group.sales) ? 'cash-as-card' : 'sales-not-known');
  if (difference === 0) return verdict('matched', 'in-total', 0);
  if (isEstimate(group.sales)) return verdict('unclear', 'cash-as-card', difference);
  const sum = sumOf(group.sales)!;
  const sure = sumOf(group.sales.filter((sale) => isSurelyPaid(sale, group, all)))!;
  const outside = all.sales.filter((sale) => !group.sales.includes(sale) && isAtEdgeOf(sale, group));
  const mayBeMore = isFloor(group.sales) || group.deposits.some(({ dated }) => dated.mayBeLeft !== null);
  const most = mayBeMore ? null : add(sum, sumOf(outside));
  const paid = sum + difference;
  const isExact = sure === sum && most === sum;
  const reason = isExact ? null : 'edges';
  if (most !== null && paid > most) return verdict('differing', reason, paid - most, !isExact);
  if (paid < sure) return verdict('differing', reason, paid - sure, !isExact);
  if (isFloor(group.sales) && paid > sum) return verdict('unclear', 'sales-floor', difference);
  const open = whyOpen(group, paid - sum);
  return open === null ? verdict('unclear', 'edges', difference) : verdict('open', open);
}

/** What lies outside of sheet or reads and makes the difference, where that can make all of it. */
function whyOpen({ sales, deposits }: Group, difference: Minor): DepositReason | null {
  if (difference > 0) return deposits.some(({ dated }) => dated.mayBeLeft !== null) ? 'outside-reads' : null;
  const open = sales.filter((sale) => sale.open !== null);
  return difference + sumOf(open)! >= 0 ? (open[0]?.open ?? null) : null;
}

/**
 * Whether the deposits of a group must hold all of a sale: it lies within their stated days, or is due by now; and no other
 * deposit can be for a part of it.
 */
function isSurelyPaid(sale: PlacedSale, { deposits }: Group, all: Group): boolean {
  const mayBeOthers = all.deposits.some((deposit) => !deposits.includes(deposit) && areLinked(sale, deposit));
  if (isRagged(sale) && mayBeOthers) return false;
  if (deposits.some(({ row }) => !isStated(row))) return sale.open === null;
  if (!mayBeOthers && !isRagged(sale)) {
    if (sale.open === null) return true;
    // Between two proven ends lies one day less than the calendar's; which of them the processor states does not matter.
    const { span } = sale.dated;
    if (sale.isProven && countDays(deposits.map(({ dated }) => dated.span)) >= span.last - span.first) return true;
  }
  const first = smallestOf(deposits.map(({ dated }) => dated.span.first));
  const last = largestOf(deposits.map(({ dated }) => dated.span.last));
  return sale.dated.span.first >= first && sale.dated.span.last <= last;
}

/** Whether a part of a sale, ending inside of a day, can belong to the deposits of a group that it is not in. */
function isAtEdgeOf(sale: PlacedSale, { deposits }: Group): boolean {
  return isRagged(sale) && deposits.some((deposit) => areLinked(sale, deposit));
}

/** Whether more may have been sold. */
export const isFloor = (sales: readonly PlacedSale[]): boolean =>
  sales.some((each) => each.sales.some((one) => one.isFloor));
/** Whether the card counters hold cash sales too, or may. */
export const isEstimate = (sales: readonly PlacedSale[]): boolean =>
  sales.some((each) => each.sales.some(({ isCashBookedAsCard }) => isCashBookedAsCard));
const sumOf = (sales: readonly PlacedSale[]): Minor | null => addAll(sales.map(({ dated }) => dated.amount));

function differenceOf({ sales, deposits }: Group): Minor | null {
  return subtract(addAll(deposits.map(({ dated }) => dated.amount)), sumOf(sales));
}
