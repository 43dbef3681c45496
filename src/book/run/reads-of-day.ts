import { type LocalDate, moveDate } from '../../model/index.js';
import type { BookRead, BookStore } from '../store/index.js';

import type { PlannedMachine } from './plan-day.js';
import { PLAIN_ERA } from './work-out-machine.js';

/** How far back the last visit is looked for, in reads. */
const LOOKS = [12, 48, 200];
const FURTHEST_LOOK = LOOKS.at(-1);
/** So many reads are taken before the day's own where no visit is known among those. */
const WITHOUT_VISIT = 24;

/** What a machine's reads on a day are chosen by. */
export interface DayWindow {
  readonly day: LocalDate;
  /** What came later than this entry was not known. */
  readonly lastEntry: number;
}

/** Reads of a machine, those without a time first. */
export interface ReadsOfDay {
  readonly reads: readonly BookRead[];
  /** Whether none from the first of them on was left out. */
  readonly isComplete: boolean;
  /** Whether there is none before them that has a time. */
  readonly isFromStart: boolean;
}

/**
 * The reads that a machine's figures of a day rest on: the day's own and all after them that were known then, and those before
 * back to the last visit.
 */
export async function chooseReadsOfDay(
  store: BookStore,
  machine: PlannedMachine,
  { day, lastEntry }: DayWindow,
): Promise<ReadsOfDay> {
  const { key, first, hasUndated, entries } = machine;
  const from = first ?? `${moveDate(day, 1)}T00:00:00`;
  const own = new Set(entries);
  for (const before of LOOKS) {
    const found = await store.readsOf(key, { from, before, isUndatedIn: hasUndated });
    // Of reads without a time only the day's own are known to belong here.
    const known = found.filter(({ entry, at }) => entry <= lastEntry && (at !== null || own.has(entry)));
    const isComplete = known.length === found.length;
    const isFromStart = found.filter(({ at }) => at !== null && at < from).length < before;
    const undated = known.filter(({ at }) => at === null);
    const earlier = known.filter(({ at }) => at !== null && at < from);
    const later = known.filter(({ at }) => at !== null && at >= from);
    // In a history that is not in plain order a read's neighbours do not tell its place: then more of it is looked at.
    const isPlain = known.every(({ era }) => era === null || era === PLAIN_ERA);
    const start = isPlain ? earlier.findLastIndex(isVisit) : -1;
    if (start < 0 && !isFromStart && before !== FURTHEST_LOOK) continue;
    const skipped = start >= 0 ? start : isPlain ? Math.max(0, earlier.length - WITHOUT_VISIT) : 0;
    return {
      reads: [...undated, ...earlier.slice(skipped), ...later],
      isComplete,
      isFromStart: isFromStart && skipped === 0,
    };
  }
  throw new RangeError('the furthest look ends it');
}

/** Whether a read is known to be a visit that can be counted from. */
function isVisit({ reason, verdict, duplicateOf, facts }: BookRead): boolean {
  const filled = (facts as { readonly filled?: unknown } | null)?.filled;
  return (reason === 'service' || filled === true) && verdict !== 'read-again' && duplicateOf === null;
}
