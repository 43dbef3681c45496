import { add, type Minor, subtract } from '../model/index.js';
import { haveCommonDay } from './days.js';
import type { DepositReason, DepositState } from './deposit-match.js';
import type { PlacedDeposit, PlacedSale } from './place-stream.js';

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

const verdict = (
  state: DepositState,
  reason: DepositReason | null,
  difference: Minor | null = null,
  isAtLeast = false,
): Verdict => ({ state, reason, difference, isAtLeast });

/** Runs with equal sums, and nothing else that would do. */
export function judgeEqual({ sales }: Group): Verdict {
  const isFloor = sales.some((each) => each.sales.isFloor);
  const isEstimate = sales.some((each) => each.sales.isCashBookedAsCard);
  return verdict('matched', isEstimate ? 'cash-as-card' : isFloor ? 'sales-floor' : null, 0);
}

/** Runs of which several readings are equally good. Each leaves something over, or it would be the only one. */
export function judgeSeveral(group: Group): Verdict {
  return verdict('unclear', 'equally-good', differenceOf(group));
}

/** What is left between equal sums: put together by common days, the others alone. */
export function judgeRest(group: Group): JudgedGroup[] {
  return connect(group).flatMap((part) => {
    if (part.deposits.length === 0) return judgeLoneSales(part.sales);
    if (part.sales.length === 0) return part.deposits.map(judgeLoneDeposit);
    return [{ ...part, ...compareGroup(part) }];
  });
}

/** Groups whose sales and deposits are linked by common days, and everything that is linked to nothing, in one group each. */
function connect({ sales, deposits }: Group): Group[] {
  const groups: { sales: Set<PlacedSale>; deposits: Set<PlacedDeposit> }[] = [];
  for (const deposit of deposits) {
    const paid = sales.filter(({ dated }) => haveCommonDay(dated.span, deposit.dated.span));
    const linked = groups.filter((group) => paid.some((sale) => group.sales.has(sale)));
    for (const group of linked) groups.splice(groups.indexOf(group), 1);
    groups.push({
      sales: new Set([...linked.flatMap((group) => [...group.sales]), ...paid]),
      deposits: new Set([...linked.flatMap((group) => [...group.deposits]), deposit]),
    });
  }
  const isPaid = (sale: PlacedSale): boolean => groups.some((group) => group.sales.has(sale));
  const inOrder = groups.map(
    (group): Group => ({
      sales: sales.filter((sale) => group.sales.has(sale)),
      deposits: deposits.filter((deposit) => group.deposits.has(deposit)),
    }),
  );
  return [...inOrder, { sales: sales.filter((sale) => !isPaid(sale)), deposits: [] }];
}

/** Sales without a deposit, those in a row with one verdict together. */
function judgeLoneSales(sales: readonly PlacedSale[]): JudgedGroup[] {
  const groups: JudgedGroup[] = [];
  for (const sale of sales) {
    const own = judgeLoneSale(sale);
    const last = groups.at(-1);
    if (last === undefined || last.state !== own.state || last.reason !== own.reason) {
      groups.push({ sales: [sale], deposits: [], ...own });
      continue;
    }
    const group = { sales: [...last.sales, sale], deposits: [] };
    groups[groups.length - 1] = {
      ...last,
      ...group,
      difference: last.difference === null ? null : differenceOf(group),
    };
  }
  return groups;
}

function judgeLoneSale(sale: PlacedSale): Verdict {
  if (sale.open !== null) return verdict('open', sale.open);
  const { isCashBookedAsCard, isFloor } = sale.sales;
  if (isCashBookedAsCard) return verdict('unclear', 'cash-as-card');
  if (sale.dated.amount === null) return verdict('unclear', 'sales-not-known');
  return verdict('missing', isFloor ? 'sales-floor' : null, -sale.dated.amount, isFloor);
}

function judgeLoneDeposit(deposit: PlacedDeposit): JudgedGroup {
  const { amount, mayBeLeft } = deposit.dated;
  const own = mayBeLeft === null ? verdict('extra', null, amount) : verdict('open', 'outside-reads');
  return { sales: [], deposits: [deposit], ...own };
}

/** Sales and deposits of the same days whose sums are not equal, or not in order. */
function compareGroup(group: Group): Verdict {
  const difference = differenceOf(group);
  if (difference === null) return verdict('unclear', unknownReason(group));
  if (difference === 0) return verdict('matched', 'in-total', 0);
  if (group.sales.some(({ sales }) => sales.isCashBookedAsCard)) return verdict('unclear', 'cash-as-card', difference);
  const sure = add(...group.sales.filter((sale) => isSurelyPaid(sale, group)).map(({ dated }) => dated.amount))!;
  const sum = add(...group.sales.map(({ dated }) => dated.amount))!;
  const isFloor = group.sales.some(({ sales }) => sales.isFloor);
  const mayBeMore = isFloor || group.deposits.some(({ dated }) => dated.mayBeLeft !== null);
  const isExact = sure === sum && !mayBeMore;
  const paid = sum + difference;
  if (paid > sum && !mayBeMore) return verdict('differing', isExact ? null : 'edges', difference, !isExact);
  if (paid < sure) return verdict('differing', isExact ? null : 'edges', paid - sure, !isExact);
  return verdict('unclear', isFloor && paid > sum ? 'sales-floor' : 'edges', difference);
}

/** Whether a deposit of the group must hold all of the sale: it lies within their stated days, or is due by now. */
function isSurelyPaid({ dated, open }: PlacedSale, { deposits }: Group): boolean {
  const isStated = deposits.every(({ row }) => row.periodFrom !== null);
  if (!isStated) return open === null;
  const first = Math.min(...deposits.map((deposit) => deposit.dated.span.first));
  const last = Math.max(...deposits.map((deposit) => deposit.dated.span.last));
  return dated.span.first >= first && dated.span.last <= last;
}

function unknownReason({ sales }: Group): DepositReason {
  const isEstimate = sales.some(
    ({ dated, sales: { isCashBookedAsCard } }) => dated.amount === null && isCashBookedAsCard,
  );
  return isEstimate ? 'cash-as-card' : 'sales-not-known';
}

function differenceOf({ sales, deposits }: Group): Minor | null {
  return subtract(add(...deposits.map(({ dated }) => dated.amount)), add(...sales.map(({ dated }) => dated.amount)));
}
