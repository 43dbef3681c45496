import { type LocalDate, moveDate } from '../../model/index.js';
import type { BookRead, BookStore, ReadKey } from '../store/index.js';

/** Days of known collections that are kept before and after the day that is settled. */
const COLLECTIONS_BEFORE = 3;
const COLLECTIONS_AFTER = 2;
/** Days to either side that are searched for them before all of a machine's history is looked at. */
const DAYS_NEAR = 60;

/**
 * The part of a machine's history that a day is settled from: from some known collections before it to some after it, so
 * that work and memory stay flat however long the book is kept. Where too few are known, all of it. What has no time, or
 * arrived with the rest though its clock says otherwise, belongs to it.
 *
 * @param keys - under which the book has its reads
 */
export async function loadHistory(store: BookStore, keys: Iterable<string>, day: LocalDate): Promise<BookRead[]> {
  const window = { from: moveDate(day, -DAYS_NEAR), to: `${moveDate(day, DAYS_NEAR)}T23:59:59`, isUndatedIn: true };
  const near = await gather(keys, (key) => store.readsOf(key, window));
  const { first, last } = findBounds(near, day);
  if (first === null) return limitHistory(await gather(keys, (key) => store.readsOf(key)), day);
  const time = { from: first.at!.slice(0, 10), ...(last === null ? {} : { to: last.at! }), isUndatedIn: true };
  const entries = { entryFrom: first.entry, ...(last === null ? {} : { entryTo: last.entry + 1 }) };
  const found = await gather(keys, async (machine) => {
    const arrived: BookRead[] = [];
    for await (const read of store.reads({ machine, ...entries })) arrived.push(read);
    return [...(await store.readsOf(machine, time)), ...arrived];
  });
  return limitHistory(found, day);
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
