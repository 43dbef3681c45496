import { type LocalDate, type LocalDateTime, moveDate } from '../../model/index.js';
import type { BookRead, BookStore, ReadKey } from '../store/index.js';

/** Days of known collections that are kept before and after the day that is settled. */
const COLLECTIONS_BEFORE = 3;
const COLLECTIONS_AFTER = 2;
/** Days before that are searched for them, one after the other, before all of a machine's history is looked at. */
const DAYS_BEFORE = [28, 60];
const DAYS_AFTER = 60;

/**
 * The part of a machine's history that a day is settled from: from some known collections before it to some after it, so
 * that work and memory stay flat however long the book is kept. Where too few are known, all of it. What has no time, or
 * arrived with the rest though its clock says otherwise, belongs to it.
 *
 * @param keys - under which the book has its reads
 */
export async function loadHistory(store: BookStore, keys: Iterable<string>, day: LocalDate): Promise<BookRead[]> {
  const to = `${moveDate(day, DAYS_AFTER)}T23:59:59`;
  for (const days of DAYS_BEFORE) {
    const from = moveDate(day, -days);
    const near = await gather(keys, (key) => store.readsOf(key, { from, to, isUndatedIn: true }));
    const { first, last } = findBounds(near, day);
    if (first === null) continue;
    const beyond = await gather(keys, (key) => readsBeyond(store, key, { from, to }, { first, last }));
    return limitHistory([...near, ...beyond].sort(compareTimes), day);
  }
  return limitHistory(await gather(keys, (key) => store.readsOf(key)), day);
}

/**
 * Reads of a machine outside a time that belong to the day's part all the same: they arrived with it, or there is no
 * collection that ends it.
 */
async function readsBeyond(
  store: BookStore,
  machine: string,
  { from, to }: { readonly from: LocalDate; readonly to: LocalDateTime },
  { first, last }: { readonly first: BookRead; readonly last: BookRead | null },
): Promise<BookRead[]> {
  const entries = { entryFrom: first.entry, ...(last === null ? {} : { entryTo: last.entry + 1 }) };
  const found: BookRead[] = [];
  // A date stands before all times of its day, so that none is found twice.
  for await (const read of store.reads({ machine, atTo: from, ...entries })) found.push(read);
  const later = last === null ? {} : entries;
  for await (const read of store.reads({ machine, atFrom: to, ...later })) if (read.at! > to) found.push(read);
  return found;
}

/** Reads of all keys, each once, by time. */
async function gather(
  keys: Iterable<string>,
  look: (key: string) => Promise<readonly BookRead[]>,
): Promise<BookRead[]> {
  const found = new Map<string, BookRead>();
  for (const key of keys) for (const read of await look(key)) found.set(nameOf(read), read);
  return [...found.values()].sort(compareTimes);
}

const nameOf = ({ entry, number }: ReadKey): string => `${entry} ${number}`;

function compareTimes(a: BookRead, b: BookRead): number {
  const [left, right] = [a.at ?? '', b.at ?? ''];
  return left < right ? -1 : left > right ? 1 : a.entry - b.entry || a.number - b.number;
}

/**
 * Of reads by time those that belong to the day's part of the history.
 *
 * @see loadHistory
 */
export function limitHistory(reads: readonly BookRead[], day: LocalDate): BookRead[] {
  const { first, last } = findBounds(reads, day);
  const [firstEntry, firstAt] = [first?.entry ?? 0, first?.at?.slice(0, 10) ?? ''];
  const [lastEntry, lastAt] = [last?.entry ?? Number.POSITIVE_INFINITY, last?.at ?? '9999-12-31T23:59:59'];
  return reads.filter(
    ({ at, entry }) => at === null || (at >= firstAt && at <= lastAt) || (entry >= firstEntry && entry <= lastEntry),
  );
}

interface Bounds {
  readonly first: BookRead | null;
  readonly last: BookRead | null;
}

/** The collections where the part begins and ends; null where there are too few. */
function findBounds(reads: readonly BookRead[], day: LocalDate): Bounds {
  const [dayBefore, dayAfter] = [moveDate(day, -1), moveDate(day, 1)];
  const services = reads.filter(
    ({ reason, verdict, at }) => reason === 'service' && verdict !== 'read-again' && at !== null,
  );
  const before = services.filter(({ at }) => at!.slice(0, 10) < dayBefore);
  const after = services.filter(({ at }) => at!.slice(0, 10) > dayAfter);
  return { first: nthDay(before.toReversed(), COLLECTIONS_BEFORE), last: nthDay(after, COLLECTIONS_AFTER) };
}

/** The read that begins the nth day among reads in order; null when there are fewer days. */
function nthDay(reads: readonly BookRead[], n: number): BookRead | null {
  const days = new Set<string>();
  for (const read of reads) {
    days.add(read.at!.slice(0, 10));
    if (days.size === n) return read;
  }
  return null;
}
