import { type Count, type Minor, multiply, subtract } from '../model/index.js';
import type { Column, Read } from '../read/index.js';
import type { ReadPair } from './read-pair.js';
import { type PriceShare, splitValue, type ValueSplit } from './split-value.js';

/** What was sold from one column through one payment device and price list. */
interface ListSales {
  readonly list: string;
  readonly count: Count;
  readonly value: Minor;
  readonly prices: readonly Minor[];
}

/**
 * Explain a column's sales list by list: by PA7, else by LA1. They are believed only where they add up to the column's
 * own counters exactly, since what a list means is the maker's business (Saeco Freestanding 400, p. 29); lists that a
 * profile calls free or test are left out.
 *
 * @returns null when the read has no lists, or they do not add up
 */
export function splitByLists(pair: ReadPair, column: string, sold: Count, value: Minor): ValueSplit | null {
  return closing(byPayments(pair, column), sold, value) ?? closing(byPriceLists(pair, column), sold, value);
}

function closing(sales: readonly ListSales[], sold: Count, value: Minor): ValueSplit | null {
  if (sales.length === 0) return null;
  const count = sales.reduce((sum, list) => sum + list.count, 0);
  const money = sales.reduce((sum, list) => sum + list.value, 0);
  if (count !== sold || money !== value) return null;
  const shares: PriceShare[] = [];
  let unexplained = 0;
  for (const { list, count: vends, value: taken, prices } of sales) {
    const split = splitValue(vends, taken, prices);
    if (split === null) return null;
    for (const share of split.shares) shares.push({ ...share, list });
    unexplained += split.unexplained;
  }
  return { shares, unexplained };
}

function byPayments(pair: ReadPair, id: string): ListSales[] {
  const earlier = new Map(paymentsOf(pair.from.read, id).map((line) => [`${line.device}/${line.list}`, line]));
  const sales: ListSales[] = [];
  for (const line of paymentsOf(pair.to.read, id)) {
    if (isUnpaid(pair, line.list)) continue;
    const list = `${line.device}/${line.list}`;
    const before = pair.isRestarted ? undefined : earlier.get(list);
    const count = subtract(line.count, before?.count ?? 0);
    const value = subtract(line.value, before?.value ?? 0);
    if (count === null || value === null || count < 0 || value < 0) return [];
    const prices = [before?.price ?? null, line.price].filter((price) => price !== null);
    if (count > 0 || value > 0) sales.push({ list, count, value, prices });
  }
  return sales;
}

const paymentsOf = (read: Read, id: string): Column['payments'] => read.column(id)?.payments ?? [];

function byPriceLists(pair: ReadPair, id: string): ListSales[] {
  const earlier = new Map(priceListsOf(pair.from.read, id).map((line) => [line.list, line]));
  const sales: ListSales[] = [];
  for (const line of priceListsOf(pair.to.read, id)) {
    if (isUnpaid(pair, line.list)) continue;
    const before = pair.isRestarted ? undefined : earlier.get(line.list);
    const count = subtract(line.count, before?.count ?? 0);
    const value = multiply(count, line.price);
    if (count === null || count < 0 || value === null) return [];
    if (count > 0) sales.push({ list: `LA1/${line.list}`, count, value, prices: [line.price!] });
  }
  return sales;
}

function priceListsOf(read: Read, id: string): { list: string; price: Minor | null; count: Count | null }[] {
  const lists = [];
  for (const line of read.lines('LA1')) {
    if (read.block.text(line, 2) !== id) continue;
    lists.push({
      list: read.block.text(line, 1) ?? '',
      price: read.block.number(line, 3),
      count: read.block.number(line, 5),
    });
  }
  return lists;
}

function isUnpaid({ to }: ReadPair, list: string): boolean {
  const meaning = to.profile?.priceLists?.[list];
  return meaning === 'free' || meaning === 'test';
}
