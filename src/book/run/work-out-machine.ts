import {
  buildEach,
  type Gap,
  type Intervals,
  mergeDuplicates,
  orderReads,
  type TakenRead,
} from '../../interval/index.js';
import { bestTime, type LocalDateTime } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import { packGap, packStep, sealStep } from '../kept/index.js';
import type { BookRead, KnownOfRead, ReadKey, StepToKeep, WorkedOut, WorkedOutRead } from '../store/index.js';
import { isPlainOrder } from './plain-order.js';

/** The era of all reads of a history in plain order: what comes new to it can be placed by its neighbours. */
export const PLAIN_ERA = 0;

/** A read of the book, the same as the accounts take it, and what is to be kept of it now. */
export interface RecalledRead {
  readonly kept: BookRead;
  readonly taken: TakenRead;
  readonly known: KnownOfRead;
}

/** Everything but for which machine and which revision. */
export type Work = Pick<WorkedOut, 'window' | 'changed' | 'steps'>;

/**
 * Work out the intervals between reads of one machine, and the place of each read.
 *
 * @param isWhole - whether these are all reads of the machine
 * @returns null when they are not, and what is at hand does not tell what all of them together would
 */
export function workOutMachine(reads: readonly RecalledRead[], roster: Roster, isWhole: boolean): Work | null {
  const { intervals, gaps, machines } = buildEach(
    reads.map(({ taken }) => taken),
    roster,
  );
  const ordered = [...machines.values()];
  const isPlain = ordered.length <= 1 && ordered.every(isPlainOrder);
  const places = isPlain ? placePlain(ordered.flat()) : placeByEra(ordered);
  const duplicates = findDuplicates(reads);
  if (!isWhole && !(isPlain && fitsRest(reads, ordered[0] ?? [], places, duplicates))) return null;
  const work = makeWork(reads, { intervals, gaps }, places, duplicates);
  return isWhole || !hasChangedEdge(reads, work) ? work : null;
}

function makeWork(
  reads: readonly RecalledRead[],
  { intervals, gaps }: Pick<Intervals, 'intervals' | 'gaps'>,
  places: ReadonlyMap<TakenRead, Place>,
  duplicates: ReadonlyMap<BookRead, ReadKey>,
): Work {
  const recalled = new Map(reads.map((one) => [one.taken, one]));
  const changed: WorkedOutRead[] = [];
  for (const { kept, taken, known } of reads) {
    const { entry, number } = kept;
    const place = places.get(taken) ?? NO_PLACE;
    const now = { entry, number, ...known, ...place, duplicateOf: duplicates.get(kept) ?? null };
    if (hasChanged(kept, now)) changed.push(now);
  }
  return {
    window: reads.map(({ kept: { entry, number } }) => ({ entry, number })),
    changed,
    steps: [
      ...intervals.map((interval) => keepStep(interval, packStep(interval), recalled)),
      ...gaps.map((gap) => keepStep(gap, packGap(gap.finding), recalled)),
    ],
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

/**
 * Whether a read at an edge of a part of a history is another than it was: on it rests a step that lies outside, too. The last
 * may be the last of all.
 */
function hasChangedEdge(reads: readonly RecalledRead[], { changed }: Work): boolean {
  const edges = [...reads.slice(0, 1), ...reads.slice(-1)].map(({ kept }) => kept);
  return edges.some(
    (kept) => kept.position !== null && changed.some((now) => now.entry === kept.entry && now.number === kept.number),
  );
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

const COMPARED = ['machine', 'receivedAt', 'reason', 'bag', 'currency', 'decimals', 'verdict', 'at'] as const;

function hasChanged(kept: BookRead, now: WorkedOutRead): boolean {
  // What is kept must be what it was sealed as, too.
  const isSealedSo = kept.rests !== null && Buffer.compare(kept.rests, now.rests!) === 0;
  const isAlike = COMPARED.every((key) => kept[key] === now[key]);
  const isKnownSo = isSealedSo && isAlike && JSON.stringify(kept.facts) === JSON.stringify(now.facts);
  const { duplicateOf: a } = kept;
  const { duplicateOf: b } = now;
  const isPlacedSo = kept.era === now.era && kept.position === now.position;
  return !isKnownSo || !isPlacedSo || a?.entry !== b?.entry || a?.number !== b?.number;
}

function keepStep(
  ends: Pick<Gap, 'from' | 'to'>,
  packed: ReturnType<typeof packStep>,
  recalled: ReadonlyMap<TakenRead, RecalledRead>,
): StepToKeep {
  const [from, to] = [recalled.get(ends.from)!, recalled.get(ends.to)!];
  const keyOf = ({ kept: { entry, number } }: RecalledRead): ReadKey => ({ entry, number });
  return {
    from: keyOf(from),
    to: keyOf(to),
    ...packed,
    seal: sealStep(from.known.rests!, to.known.rests!, packed),
  };
}
