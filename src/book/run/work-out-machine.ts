import { outlineInterval } from '../../attention/index.js';
import { worstSeverity } from '../../findings/index.js';
import { buildIntervals, type Interval, mergeDuplicates, orderReads, type TakenRead } from '../../interval/index.js';
import { bestTime, type LocalDateTime } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookRead, IntervalToKeep, ReadKey, WorkedOut, WorkedOutRead } from '../store/index.js';
import { isPlainOrder } from './plain-order.js';

/** The era of all reads of a history in plain order: what comes new to it can be placed by its neighbours. */
export const PLAIN_ERA = 0;

/** A read of the book, and the same as the accounts take it. */
export interface RecalledRead {
  readonly kept: BookRead;
  readonly taken: TakenRead;
}

/** Everything but for which machine and which revision. */
export type Work = Pick<WorkedOut, 'window' | 'changed' | 'intervals'>;

/**
 * Work out the intervals between reads of one machine, and the place of each read.
 *
 * @param isWhole - whether these are all reads of the machine
 * @returns null when they are not, and what is at hand does not tell what all of them together would
 */
export function workOutMachine(reads: readonly RecalledRead[], roster: Roster, isWhole: boolean): Work | null {
  const { intervals, machines } = buildIntervals(
    reads.map(({ taken }) => taken),
    roster,
  );
  const ordered = [...machines.values()];
  const isPlain = ordered.length <= 1 && ordered.every(isPlainOrder);
  const places = isPlain ? placePlain(ordered.flat()) : placeByEra(ordered);
  const duplicates = findDuplicates(reads);
  if (!isWhole && !(isPlain && fitsRest(reads, ordered[0] ?? [], places, duplicates))) return null;
  return makeWork(reads, intervals, places, duplicates);
}

/** Intervals of one machine that were built already, and the usable reads in the order they were put in. */
export interface BuiltMachine {
  readonly intervals: readonly Interval[];
  readonly ordered: readonly TakenRead[];
}

/**
 * The same as {@link workOutMachine} from intervals that were built for something else, where nothing can be doubted about
 * them: the order is plain, and no read came twice.
 *
 * @returns null where it is not so
 */
export function keepBuilt(
  reads: readonly RecalledRead[],
  { intervals, ordered }: BuiltMachine,
  isWhole: boolean,
): Work | null {
  const usable = reads.filter(({ taken }) => taken.faults.length === 0);
  const isEachOnce = new Set(reads.map(({ kept }) => kept.content)).size === reads.length;
  if (!isEachOnce || usable.length !== ordered.length || !isPlainOrder(ordered)) return null;
  const places = placePlain(ordered);
  if (!isWhole && !fitsRest(reads, ordered, places, NO_DUPLICATES)) return null;
  return makeWork(reads, intervals, places, NO_DUPLICATES);
}

const NO_DUPLICATES: ReadonlyMap<BookRead, ReadKey> = new Map();

function makeWork(
  reads: readonly RecalledRead[],
  intervals: readonly Interval[],
  places: ReadonlyMap<TakenRead, Place>,
  duplicates: ReadonlyMap<BookRead, ReadKey>,
): Work {
  const keptOf = new Map(reads.map(({ kept, taken }) => [taken, kept]));
  const changed: WorkedOutRead[] = [];
  for (const { kept, taken } of reads) {
    const place = places.get(taken) ?? NO_PLACE;
    const duplicateOf = duplicates.get(kept) ?? null;
    const now = { ...knownNow(kept, taken), ...place, duplicateOf };
    if (hasChanged(kept, now)) changed.push(now);
  }
  return {
    window: reads.map(({ kept: { entry, number } }) => ({ entry, number })),
    changed,
    intervals: intervals.map((interval) => keepInterval(interval, keptOf)),
  };
}

type Place = Pick<WorkedOutRead, 'era' | 'position'>;

const NO_PLACE: Place = { era: null, position: null };

/** By its time, which rises from read to read: a read that comes later to the history changes no other's place. */
function placePlain(ordered: readonly TakenRead[]): Map<TakenRead, Place> {
  return new Map(ordered.map((taken) => [taken, { era: PLAIN_ERA, position: secondsOf(bestTime(taken)!) }]));
}

function placeByEra(machines: readonly (readonly TakenRead[])[]): Map<TakenRead, Place> {
  const eras = machines.flatMap(orderReads);
  const places = eras.flatMap((era, number) =>
    era.map((taken, position): [TakenRead, Place] => [taken, { era: PLAIN_ERA + 1 + number, position }]),
  );
  return new Map(places);
}

/** A time without a zone as a number: only differences of it mean anything. */
const secondsOf = (at: LocalDateTime): number => Date.parse(`${at}Z`) / 1000;

/**
 * Whether a part of a history joins the rest where they touch: it begins with a read that has its place since before, and no
 * read has lost its place or become the copy of another, as copies of it may lie outside.
 */
function fitsRest(
  reads: readonly RecalledRead[],
  ordered: readonly TakenRead[],
  places: ReadonlyMap<TakenRead, Place>,
  duplicates: ReadonlyMap<BookRead, ReadKey>,
): boolean {
  const first = ordered[0];
  if (first === undefined) return false;
  const { era, position } = reads.find(({ taken }) => taken === first)!.kept;
  if (era !== PLAIN_ERA || position !== places.get(first)!.position) return false;
  return reads.every(({ kept, taken }) => {
    const hasLostPlace = kept.position !== null && !places.has(taken);
    const isNewlyCopy = kept.duplicateOf === null && duplicates.has(kept);
    return !hasLostPlace && !isNewlyCopy;
  });
}

/** The read that each copy is the same as. */
function findDuplicates(reads: readonly RecalledRead[]): Map<BookRead, ReadKey> {
  const groups = new Map<string, RecalledRead[]>();
  for (const one of reads) {
    const group = groups.get(one.kept.content);
    if (group === undefined) groups.set(one.kept.content, [one]);
    else group.push(one);
  }
  const found = new Map<BookRead, ReadKey>();
  for (const group of groups.values()) {
    if (group.length === 1) continue;
    const own = new Map(group.map(({ kept, taken }) => [taken, kept]));
    for (const { kept, duplicates } of mergeDuplicates([...own.keys()])) {
      const { entry, number } = own.get(kept)!;
      for (const copy of duplicates) found.set(own.get(copy)!, { entry, number });
    }
  }
  return found;
}

/** What is known of a read now: a list of today may tell more of it than was known when it came. */
function knownNow(kept: BookRead, taken: TakenRead): Omit<WorkedOutRead, keyof Place | 'duplicateOf'> {
  const { entry, number, machine, verdict, facts } = kept;
  const { receivedAt, reason, bag, currency, decimals, filled } = taken;
  const before = (facts ?? {}) as Readonly<Record<string, unknown>>;
  const isFilledNew = filled !== null && before.filled !== filled;
  return {
    ...{ entry, number, machine, receivedAt, reason, bag, currency, decimals, verdict },
    facts: isFilledNew ? { ...before, filled } : facts,
  };
}

const COMPARED = ['receivedAt', 'reason', 'bag', 'currency', 'decimals', 'facts', 'era', 'position'] as const;

function hasChanged(kept: BookRead, now: WorkedOutRead): boolean {
  const { duplicateOf: a } = kept;
  const { duplicateOf: b } = now;
  return COMPARED.some((key) => kept[key] !== now[key]) || a?.entry !== b?.entry || a?.number !== b?.number;
}

function keepInterval(interval: Interval, keptOf: ReadonlyMap<TakenRead, BookRead>): IntervalToKeep {
  const keyOf = (taken: TakenRead): ReadKey => {
    const { entry, number } = keptOf.get(taken)!;
    return { entry, number };
  };
  const { from, to, currency, decimals, totals, findings } = interval;
  return {
    from: keyOf(from),
    to: keyOf(to),
    currency,
    decimals,
    sold: totals.sold,
    value: totals.value,
    severity: worstSeverity(findings),
    body: outlineInterval(interval),
  };
}
