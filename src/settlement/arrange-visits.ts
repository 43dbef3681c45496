import type { CountRow, LocalDateTime } from '../model/index.js';
import { type Collection, momentOfCount } from './collection.js';
import { findDisorder } from './find-disorder.js';
import { countUnclearReads, findOpening, type Opening } from './find-opening.js';
import type { MachineReads } from './machine-reads.js';
import { matchCounts } from './match-counts.js';
import { listUnplaced, type PlacedVisit, placeVisits, type UnplacedVisit } from './place-visits.js';

/** What lies between two collections that have a usable capture. */
interface Gap {
  /** The collection that ends it; null behind the last one. */
  readonly visit: PlacedVisit | null;
  /** The one before it, as its place in the machine's order; -1 when there is none. */
  readonly before: number;
  readonly unplaced: readonly UnplacedVisit[];
  /** Whether the times of the visits say another order than the counters. */
  readonly isOrderUnclear: boolean;
}

/**
 * How a machine's bags and reads belong together. Every bag comes out once as a collection of its own, or with others
 * that claim the same capture; one without a usable capture is also joined to the collection after it.
 *
 * @returns collections in the machine's order, those without a usable capture before the one they are settled on
 */
export function arrangeVisits(
  counts: readonly CountRow[],
  reads: MachineReads,
  windowMinutes: number,
): readonly Collection[] {
  const matched = matchCounts(counts, reads, windowMinutes);
  const placed = placeVisits(matched, reads, windowMinutes);
  const unplaced = listUnplaced(matched, placed, reads, windowMinutes);
  const disorder = findDisorder(
    placed.map((visit) => ({ moment: momentOfPlaced(visit) || null, clock: visit.read.taken.read.clock })),
  );
  return splitGaps(placed, unplaced, disorder).flatMap((gap) => fillGap(gap, reads, windowMinutes));
}

/** Put what has no usable capture before the first collection that is later. */
function splitGaps(
  placed: readonly PlacedVisit[],
  unplaced: readonly UnplacedVisit[],
  disorder: ReadonlySet<number>,
): Gap[] {
  const gaps: Gap[] = [];
  let next = 0;
  let before = -1;
  // Where times run against the machine's order, a collection is no earlier than those before it.
  let latest = '';
  for (const [i, visit] of placed.entries()) {
    const moment = momentOfPlaced(visit);
    if (moment > latest) latest = moment;
    const first = next;
    while (next < unplaced.length && unplaced[next]!.moment < latest) next++;
    // What is counted from a collection whose place is in doubt is in doubt itself.
    const isOrderUnclear = disorder.has(i) || disorder.has(i - 1);
    gaps.push({ visit, before, unplaced: unplaced.slice(first, next), isOrderUnclear });
    before = visit.read.position;
  }
  return [...gaps, { visit: null, before, unplaced: unplaced.slice(next), isOrderUnclear: false }];
}

/** The time of the capture; where the sheet has another day, the sheet's: a clock can be wrong, a capture come late. */
function momentOfPlaced({ read, counts }: PlacedVisit): LocalDateTime {
  const count = counts[0];
  if (count === undefined) return read.time ?? '';
  return read.time?.startsWith(count.visitedAt.date) ? read.time : momentOfCount(count);
}

function fillGap(gap: Gap, reads: MachineReads, windowMinutes: number): Collection[] {
  const { visit, before, unplaced, isOrderUnclear } = gap;
  const opening: Opening =
    visit === null ? { position: before, isAssumed: false } : findOpening(visit.read, before, reads, windowMinutes);
  const opened = timeAt(reads, opening.position);
  const inside = unplaced.filter(({ moment }) => moment > opened);
  const outside = unplaced.filter(({ moment }) => moment <= opened);
  const settledWith = visit?.match ? (visit.counts.at(-1) ?? null) : null;
  return [
    ...standAlone(outside, before, opening.position, null, reads),
    ...standAlone(inside, opening.position, visit?.read.position ?? reads.usable.all.length, settledWith, reads),
    ...(visit === null ? [] : settleOn({ ...visit, isOrderUnclear }, opening, inside, reads, windowMinutes)),
  ];
}

const timeAt = (reads: MachineReads, position: number): LocalDateTime => reads.usable.all[position]?.time ?? '';

/** Collections of their own for what has no usable capture, earliest first: known up to the last read before each. */
function standAlone(
  unplaced: readonly UnplacedVisit[],
  opening: number,
  limit: number,
  settledWith: CountRow | null,
  reads: MachineReads,
): Collection[] {
  let known = opening;
  return unplaced.filter(isVisitOfItsOwn).map(({ counts, match, moment }): Collection => {
    // Only as far as the times rise: one that does not fit may be of a later read with a wrong clock.
    while (opening >= 0 && known + 1 < limit) {
      const time = timeAt(reads, known + 1);
      if (time === '' || time < timeAt(reads, known) || time >= moment) break;
      known++;
    }
    const rest = { isOpeningAssumed: false, unclearReads: 0, joined: [], unknownBags: [], isOrderUnclear: false };
    return {
      counts,
      match,
      position: -1,
      opening,
      known,
      settledWith: counts.length > 0 ? settledWith : null,
      ...rest,
    };
  });
}

/** Whether it is listed: a bag always is, a capture without one only where it is known to be of a visit. */
const isVisitOfItsOwn = ({ counts, match }: UnplacedVisit): boolean =>
  counts.length > 0 || match.read?.isService === true;

function settleOn(
  { read, counts, match, isOrderUnclear }: PlacedVisit & Pick<Collection, 'isOrderUnclear'>,
  { position: opening, isAssumed }: Opening,
  inside: readonly UnplacedVisit[],
  reads: MachineReads,
  windowMinutes: number,
): Collection[] {
  if (match === null) return [];
  const unknownBags = inside
    .filter((each) => each.counts.length === 0 && (isAssumed || isVisitOfItsOwn(each)))
    .map((each) => each.match.read!);
  return [
    {
      counts,
      match,
      position: read.position,
      opening,
      known: read.position,
      isOpeningAssumed: isAssumed,
      unclearReads: isAssumed ? 0 : countUnclearReads(read, opening, reads, windowMinutes),
      joined: inside.flatMap((each) => each.counts),
      unknownBags,
      settledWith: null,
      isOrderUnclear,
    },
  ];
}
