import { type LocalDate, moveDate } from '../../model/index.js';
import type { BookRead, BookStore, ReadKey } from '../store/index.js';
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
  machine: PlannedMachine,
  day: LocalDate,
): Promise<readonly BookRead[]> {
  const { key, first, last, hasUndated, entries } = machine;
  const from = first ?? `${moveDate(day, 1)}T00:00:00`;
  const to = last ?? from;
  const own = new Set(entries);
  for (const before of LOOKS) {
    const found = await store.readsOf(key, { from, to, before, isUndatedIn: hasUndated });
    if (found.some(({ era }) => era !== null && era !== PLAIN_ERA)) {
      return chooseByPlace(await store.readsOf(key), own, from);
    }
    // Of reads without a time only the day's own are known to belong here.
    const belongs = ({ entry, at }: BookRead): boolean => at !== null || own.has(entry);
    const known = found.filter(belongs);
    const undated = known.filter(({ at }) => at === null);
    const earlier = known.filter(({ at }) => at !== null && at < from);
    const later = known.filter(({ at }) => at !== null && at >= from);
    const start = earlier.findLastIndex(isVisit);
    const isCutOff = earlier.length === before;
    if (start < 0 && isCutOff && before !== FURTHEST_LOOK) continue;
    // What the day's first read sold is counted from the last usable one, however many others came since.
    const last = earlier.findLastIndex(isUsable);
    if (last < 0 && isCutOff) return (await store.readsOf(key, { to, isUndatedIn: hasUndated })).filter(belongs);
    const skipped = start >= 0 ? start : Math.max(0, Math.min(earlier.length - WITHOUT_VISIT, last));
    return [...undated, ...earlier.slice(skipped), ...later];
  }
  throw new RangeError('the furthest look ends it');
}

/**
 * The same in a history that is not in plain order: a clock was set, or counters began again, so that the times of its reads
 * do not tell which stand beside each other, but only the places that were worked out from all of them. By time a read that
 * stands between two others is missed, and what was sold is told twice.
 *
 * @param all - all reads of the machine, by time, those without one first
 * @param from - where nothing usable came on the day: the latest read before that time ends what is chosen
 */
function chooseByPlace(all: readonly BookRead[], own: ReadonlySet<number>, from: string): readonly BookRead[] {
  const isOwn = ({ entry }: BookRead): boolean => own.has(entry);
  // One that is not worked out yet may stand anywhere.
  if (all.some((read) => isOwn(read) && isUsable(read) && read.position === null)) return all;
  const ordered = all.filter(({ position }) => position !== null).sort(comparePlaces);
  const hasOwn = ordered.some(isOwn);
  const ends = hasOwn ? isOwn : ({ at }: BookRead): boolean => at !== null && at < from;
  const end = ordered.findLastIndex(ends) + 1;
  const start = hasOwn ? ordered.findIndex(isOwn) : end;
  const visit = ordered.slice(0, start).findLastIndex(isVisit);
  const chosen = ordered.slice(visit >= 0 ? visit : Math.max(0, start - WITHOUT_VISIT), end);
  const names = new Set(chosen.map(nameOf));
  const belongs = (read: BookRead): boolean =>
    names.has(nameOf(read)) || isOwn(read) || (read.duplicateOf !== null && names.has(nameOf(read.duplicateOf)));
  return all.filter(belongs);
}

const isUsable = ({ verdict, duplicateOf }: BookRead): boolean => verdict !== 'read-again' && duplicateOf === null;
/** The order of reads that have their places: era by era, by position. */
export const comparePlaces = (a: BookRead, b: BookRead): number => a.era! - b.era! || a.position! - b.position!;
const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;

/** Whether a read is known to be a visit that can be counted from. */
function isVisit(read: BookRead): boolean {
  const filled = (read.facts as { readonly filled?: unknown } | null)?.filled;
  return (read.reason === 'service' || filled === true) && isUsable(read);
}
