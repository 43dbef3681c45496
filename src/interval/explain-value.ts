import { add, addAll, type Count, type Minor, multiply, subtract } from '../model/index.js';
import type { Difference } from './difference.js';
import type { ListSales, PaymentLists } from './payment-lists.js';
import { type PriceShare, splitValue, type ValueSplit } from './split-value.js';

/** What is known of a column's sales and of the prices they may have been made at. */
export interface Sales {
  readonly column: string;
  readonly sold: Difference;
  readonly value: Difference;
  readonly discounts: Difference;
  /** The prices in the machine at the earlier and the later read. */
  readonly prices: { readonly priceFrom: Minor | null; readonly priceTo: Minor | null };
  /** The operator's card price, where the machine took cards. */
  readonly cardPlan: Minor | null;
}

/**
 * Explain the money a column took: by its price lists where they add up to the column's own counters (PA7, else LA1), else
 * by its prices at both reads, else by its price and one other that is known. Counters are net of discounts (from memory),
 * so it is value plus discounts that has to be vends at their prices.
 *
 * @returns null when it can not be judged: a figure or every price is missing, or sales and value cover different times
 */
export function explainValue(sales: Sales, lists: PaymentLists): ValueSplit | null {
  const { sold, value } = sales;
  const discounts = sales.discounts.value ?? 0;
  if (sold.value === null || value.value === null) return null;
  if (sold.basis !== value.basis || sold.floor !== value.floor) return null;
  if (sales.discounts.value !== null && sales.discounts.floor !== sold.floor) return null;
  const gross = add(value.value, discounts);
  if (gross === null) return null;
  const prices = knownPrices(sales);
  if (sold.value === 0 && gross === 0) return prices.length === 0 ? null : NOTHING_SOLD;
  const byPayments = closing(lists.byPayments(sales.column, sold), sold.value, value.value);
  const byPriceLists = closing(lists.byPriceLists(sales.column, sold), sold.value, null);
  const byLists = [byPayments, byPriceLists].map((part) => splitByLists(part, gross, discounts));
  const byPrices = splitValue(sold.value, gross, prices);
  const candidates = [...byLists, byPrices, byOtherPrice(sales, lists, sold.value, gross)];
  const explained = candidates.find((split) => split?.unexplained === 0);
  // Discounts that the machine counts, but that are not known here, may be all of the rest.
  const isDiscountKnown = sales.discounts.value !== null || sales.discounts.why === 'absent';
  return explained ?? (isDiscountKnown ? (byLists[0] ?? byPrices) : null);
}

const NOTHING_SOLD: ValueSplit = { shares: [], unexplained: 0 };

const knownPrices = ({ prices: { priceFrom, priceTo } }: Sales): Minor[] =>
  [priceFrom, priceTo].filter((price) => price !== null);

/** Lists are believed only where they add up to the column's own counters exactly. */
function closing(lists: ListSales[] | null, sold: Count, value: Minor | null): ListSales[] | null {
  if (lists === null || lists.length === 0) return null;
  const count = addAll(lists.map((list) => list.count));
  const money = value === null ? null : addAll(lists.map((list) => list.value));
  return count === sold && money === value ? lists : null;
}

/** Each list by its own value where that is known and nothing was discounted; else all of them by the whole. */
function splitByLists(lists: readonly ListSales[] | null, gross: Minor, discounts: Minor): ValueSplit | null {
  if (lists === null) return null;
  if (discounts !== 0 || lists.some(({ value }) => value === null)) return splitWhole(lists, gross);
  const splits = lists.map(({ list, count, value, prices }) => named(splitValue(count, value!, prices), list));
  const unexplained = addAll(splits.map((split) => split?.unexplained ?? null));
  if (unexplained === null) return null;
  return { shares: unexplained === 0 ? splits.flatMap((split) => split!.shares) : [], unexplained };
}

/**
 * Explain a sum over several lists whose own values are not known. A list with one price is fixed; with one list of two
 * prices there is at most one solution; with more of them and one step between their prices the sum can be shown to be
 * possible, though not which list sold how many at which price.
 */
function splitWhole(lists: readonly ListSales[], gross: Minor): ValueSplit | null {
  const isFixed = ({ prices }: ListSales): boolean => prices.at(0) === prices.at(-1);
  const fixed = lists.filter(isFixed);
  const open = lists.filter((list) => !isFixed(list));
  const rest = subtract(gross, addAll(fixed.map(({ count, prices }) => multiply(count, prices[0] ?? null))));
  if (rest === null) return null;
  const shares = fixed.map(({ list, count, prices }): PriceShare => ({ count, price: prices[0]!, list }));
  if (open.length === 0) return { shares: rest === 0 ? shares : [], unexplained: rest };
  const [first] = open;
  if (open.length > 1) return splitAlike(open, rest);
  const split = named(splitValue(first!.count, rest, first!.prices), first!.list);
  return split === null || split.unexplained !== 0 ? split : { shares: [...shares, ...split.shares], unexplained: 0 };
}

function splitAlike(open: readonly ListSales[], rest: Minor): ValueSplit | null {
  const steps = new Set(open.map(({ prices }) => prices[0]! - prices.at(-1)!));
  const allLater = addAll(open.map(({ count, prices }) => multiply(count, prices.at(-1)!)));
  const count = addAll(open.map((list) => list.count));
  if (steps.size > 1 || allLater === null || count === null) return null;
  const [step] = steps;
  const split = splitValue(count, rest - allLater, [step!, 0]);
  return split === null ? null : { shares: [], unexplained: split.unexplained };
}

/** The column's price and one other that is known, such as the card list's: when just one such pair explains the money. */
function byOtherPrice(sales: Sales, lists: PaymentLists, sold: Count, gross: Minor): ValueSplit | null {
  const own = new Set(knownPrices(sales));
  const [price] = own;
  if (own.size !== 1) return null;
  const others = new Set([...lists.prices(sales.column), ...(sales.cardPlan === null ? [] : [sales.cardPlan])]);
  const found = [...others]
    .filter((other) => other !== price)
    .map((other) => splitValue(sold, gross, [other, price!]))
    .filter((split) => split?.unexplained === 0);
  return found.length === 1 ? found[0]! : null;
}

function named(split: ValueSplit | null, list: string): ValueSplit | null {
  return split === null ? null : { ...split, shares: split.shares.map((share) => ({ ...share, list })) };
}
