import type { LocalDate } from '../../model/index.js';
import type { BookRead } from '../store/index.js';
import { moveDay } from './machine-names.js';

/** Days of known collections that are kept before and after the day that is settled. */
const COLLECTIONS_BEFORE = 3;
const COLLECTIONS_AFTER = 2;

/**
 * The part of a machine's history that a day is settled from: from some known collections before it to some after it, so
 * that memory stays flat however long the book is kept. Where too few are known, all of it. What has no time, or arrived
 * with the rest though its clock says otherwise, belongs to it.
 */
export function limitHistory(reads: readonly BookRead[], day: LocalDate): readonly BookRead[] {
  const services = reads.filter(
    ({ reason, verdict, at }) => reason === 'service' && verdict !== 'read-again' && at !== null,
  );
  const before = services.filter(({ at }) => at!.slice(0, 10) < moveDay(day, -1));
  const after = services.filter(({ at }) => at!.slice(0, 10) > moveDay(day, 1));
  const first = nthDay(before.toReversed(), COLLECTIONS_BEFORE);
  const last = nthDay(after, COLLECTIONS_AFTER);
  if (first === null && last === null) return reads;
  const [firstEntry, firstAt] = [first?.entry ?? 0, first?.at?.slice(0, 10) ?? ''];
  const [lastEntry, lastAt] = [last?.entry ?? Number.POSITIVE_INFINITY, last?.at ?? '9999'];
  return reads.filter(
    ({ at, entry }) => at === null || ((at >= firstAt || entry >= firstEntry) && (at <= lastAt || entry <= lastEntry)),
  );
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
