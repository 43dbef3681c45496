import { type LocalDate, moveDate } from '../../model/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import type { PlannedMachine } from './plan-day.js';
import { PLAIN_ERA } from './work-out-machine.js';

/** How far back the last visit is looked for, in reads. */
const LOOKS = [12, 48, 200];
const FURTHEST_LOOK = LOOKS.at(-1);
/** So many reads are taken before the day's own where no visit is known among those. */
const WITHOUT_VISIT = 24;

/**
 * The reads that a machine's figures of a day rest on: the day's own, and those before back to the last visit, whenever they
 * came: a capture that came later has its place in the day as it is now. Those without a time come first.
 */
export async function chooseReadsOfDay(
  store: BookStore,
  { key, first, last, hasUndated, entries }: PlannedMachine,
  day: LocalDate,
): Promise<readonly BookRead[]> {
  const from = first ?? `${moveDate(day, 1)}T00:00:00`;
  const to = last ?? from;
  const own = new Set(entries);
  for (const before of LOOKS) {
    const found = await store.readsOf(key, { from, to, before, isUndatedIn: hasUndated });
    // Of reads without a time only the day's own are known to belong here.
    const known = found.filter(({ entry, at }) => at !== null || own.has(entry));
    const undated = known.filter(({ at }) => at === null);
    const earlier = known.filter(({ at }) => at !== null && at < from);
    const later = known.filter(({ at }) => at !== null && at >= from);
    // In a history that is not in plain order a read's neighbours do not tell its place: then more of it is looked at.
    const isPlain = known.every(({ era }) => era === null || era === PLAIN_ERA);
    const start = isPlain ? earlier.findLastIndex(isVisit) : -1;
    if (start < 0 && earlier.length === before && before !== FURTHEST_LOOK) continue;
    const skipped = start >= 0 ? start : isPlain ? Math.max(0, earlier.length - WITHOUT_VISIT) : 0;
    return [...undated, ...earlier.slice(skipped), ...later];
  }
  throw new RangeError('the furthest look ends it');
}

/** Whether a read is known to be a visit that can be counted from. */
function isVisit({ reason, verdict, duplicateOf, facts }: BookRead): boolean {
  const filled = (facts as { readonly filled?: unknown } | null)?.filled;
  return (reason === 'service' || filled === true) && verdict !== 'read-again' && duplicateOf === null;
}
