import { type Count, type Minor, subtract } from '../model/index.js';
import { type Profile, rollOverModulus } from '../profile/index.js';
import type { Read } from '../read/index.js';
import { type Difference, findRollOver } from './difference.js';
import type { ReadPair } from './read-pair.js';

/** What was sold from one column through one payment device and price list. */
export interface ListSales {
  /** `CA/0` for a PA7 segment's device and list, `LA1/0` for a price list. */
  readonly list: string;
  readonly count: Count;
  /** Net of discounts; null for LA1, which counts vends alone. */
  readonly value: Minor | null;
  /** The list's prices at the earlier and the later read, as far as they are known. */
  readonly prices: readonly Minor[];
}

/** One line of PA7 or LA1: a price list as a read has it. */
interface ListLine {
  readonly key: string;
  readonly list: string;
  readonly price: Minor | null;
  readonly count: Count | null;
  readonly value: Minor | null;
  readonly intervalCount: Count | null;
  readonly intervalValue: Minor | null;
}

const CARD_DEVICE = /^D[AB]\//;

/** What a price list stands for by the machine's profile; undefined when it does not say. */
export function meaningOf(profile: Profile | null, list: string): string | undefined {
  const lists = profile?.priceLists;
  return lists !== undefined && Object.hasOwn(lists, list) ? lists[list] : undefined;
}

/** The price lists of both reads of a pair, column by column: PA7, else LA1. */
export class PaymentLists {
  readonly #pair: ReadPair;
  readonly #priceLists: { readonly from: Map<string, ListLine[]>; readonly to: Map<string, ListLine[]> };

  constructor(pair: ReadPair) {
    this.#pair = pair;
    this.#priceLists = { from: readPriceLists(pair.from.read), to: readPriceLists(pair.to.read) };
  }

  /**
   * What was sold list by list, from PA7; null when that is not known in full. Lists that a profile calls free or test are
   * left out.
   *
   * @param sold - how the column's own figure came about: the lists are read in the same way
   */
  byPayments(column: string, sold: Difference): ListSales[] | null {
    return this.#sales(paymentLines(this.#pair.from.read, column), paymentLines(this.#pair.to.read, column), sold);
  }

  /** The same from LA1. What a list means is the maker's business (Saeco Freestanding 400, p. 29). */
  byPriceLists(column: string, sold: Difference): ListSales[] | null {
    const { from, to } = this.#priceLists;
    return this.#sales(from.get(column) ?? [], to.get(column) ?? [], sold);
  }

  /**
   * The price that cards pay at the later read: of the lists that the profile calls card lists, else of the cashless
   * devices' lists where they all agree. Null when it is not known.
   */
  cardPrice(column: string): Minor | null {
    const { read, profile } = this.#pair.to;
    const payments = paymentLines(read, column);
    const all = [...payments, ...(this.#priceLists.to.get(column) ?? [])];
    const named = all.filter(({ list }) => meaningOf(profile, list) === 'card');
    const lines = named.length > 0 ? named : payments.filter(({ key }) => CARD_DEVICE.test(key));
    const prices = new Set(lines.map(({ price }) => price));
    const [price] = prices;
    return prices.size === 1 ? price! : null;
  }

  /** Every price of the later read's paid lists, for what no split explains. */
  prices(column: string): readonly Minor[] {
    const { read, profile } = this.#pair.to;
    const lines = [...paymentLines(read, column), ...(this.#priceLists.to.get(column) ?? [])];
    return lines.flatMap(({ list, price }) => (price === null || isUnpaid(profile, list) ? [] : price));
  }

  #sales(earlier: readonly ListLine[], later: readonly ListLine[], sold: Difference): ListSales[] | null {
    const before = new Map(earlier.map((line) => [line.key, line]));
    const { profile } = this.#pair.to;
    const sales: ListSales[] = [];
    for (const line of later) {
      if (isUnpaid(profile, line.list)) continue;
      const same = before.get(line.key);
      const count = this.#moved('count', same, line, sold);
      const value = line.key.startsWith('LA1/') ? null : this.#moved('value', same, line, sold);
      if (count === null || (value === null && !line.key.startsWith('LA1/'))) return null;
      if (count === 0 && (value === null || value === 0)) continue;
      const prices = [same?.price ?? null, line.price].filter((price) => price !== null);
      sales.push({ list: line.key, count, value, prices });
    }
    return sales;
  }

  #moved(of: 'count' | 'value', before: ListLine | undefined, line: ListLine, sold: Difference): number | null {
    const pick = (from: ListLine): number | null =>
      sold.basis === 'interval' ? (of === 'count' ? from.intervalCount : from.intervalValue) : from[of];
    const isSinceZero = before === undefined || sold.from === null;
    const start = isSinceZero ? 0 : pick(before);
    const now = pick(line);
    const step = subtract(now, start);
    if (step === null || step >= 0) return step;
    const element = of === 'count' ? 'PA705' : 'PA706';
    const modulus = findRollOver(start!, now!, rollOverModulus(this.#pair.to.profile, element));
    return modulus === null ? null : step + modulus;
  }
}

function isUnpaid(profile: Profile | null, list: string): boolean {
  const meaning = meaningOf(profile, list);
  return meaning === 'free' || meaning === 'test';
}

function paymentLines(read: Read, column: string): ListLine[] {
  if (read.index.payments.length === 0) return [];
  const payments = read.column(column)?.payments ?? [];
  return payments.map(({ device, list, price, count, value, intervalCount, intervalValue }) => {
    return { key: `${device}/${list}`, list, price, count, value, intervalCount, intervalValue };
  });
}

function readPriceLists(read: Read): Map<string, ListLine[]> {
  const byColumn = new Map<string, ListLine[]>();
  const { block } = read;
  for (const at of read.lines('LA1')) {
    const list = block.text(at, 1) ?? '';
    const column = block.text(at, 2) ?? '';
    const line: ListLine = {
      key: `LA1/${list}`,
      list,
      price: block.number(at, 3),
      intervalCount: block.number(at, 4),
      count: block.number(at, 5),
      value: null,
      intervalValue: null,
    };
    const lines = byColumn.get(column);
    if (lines === undefined) byColumn.set(column, [line]);
    else lines.push(line);
  }
  return byColumn;
}
