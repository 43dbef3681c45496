import { bestTime, type TakenRead } from '../interval/index.js';
import type { CountRow, LocalDateTime } from '../model/index.js';
import type { MachineReads } from './machine-reads.js';
import { matchVisit, type VisitMatch } from './match-visit.js';
import { isReasonUnknown, isServiceRead } from './service-read.js';

/** A collection of one machine's cash: a bag with its capture, a bag without one, or a service read without a bag. */
export interface Collection {
  /** The bags: more than one when two rows of the sheet claim the same capture; none for a service read without a bag. */
  readonly counts: readonly CountRow[];
  readonly match: VisitMatch;
  /** The capture in the machine's order; -1 when there is none that can be used. */
  readonly position: number;
  /** The collection before it, as its place in the machine's order; -1 when there is none. */
  readonly opening: number;
  /** Whether the opening is taken to be a collection only because nothing says why its capture was taken. */
  readonly isOpeningAssumed: boolean;
  /** Bags collected since the opening that have no usable capture of their own: they are settled on this one. */
  readonly joined: readonly CountRow[];
}

/** How a machine's bags and reads belong together, in the order of the visits. */
export function arrangeVisits(
  counts: readonly CountRow[],
  reads: MachineReads,
  windowMinutes: number,
): readonly Collection[] {
  const matched = counts.map((count) => ({ count, match: matchVisit(count, reads, windowMinutes) }));
  const positionOf = ({ read }: VisitMatch): number => (read === null ? -1 : reads.ordered.indexOf(read));
  const byPosition = new Map<number, { counts: CountRow[]; match: VisitMatch }>();
  const unplaced: { count: CountRow; match: VisitMatch }[] = [];
  for (const { count, match } of matched) {
    const position = positionOf(match);
    if (position < 0) unplaced.push({ count, match });
    else if (byPosition.has(position)) byPosition.get(position)!.counts.push(count);
    else byPosition.set(position, { counts: [count], match });
  }
  for (const [position, taken] of reads.ordered.entries()) {
    if (!byPosition.has(position) && isServiceRead(taken, reads)) {
      byPosition.set(position, { counts: [], match: { read: taken, matchedBy: null, candidates: [], findings: [] } });
    }
  }
  const positions = [...byPosition.keys()].sort((a, b) => a - b);
  const placed = positions.map((position, i): Collection => {
    const { opening, isOpeningAssumed } = findOpening(position, positions[i - 1] ?? -1, reads);
    const joined = unplaced.filter(({ count }) => liesBetween(count, reads.ordered[opening], reads.ordered[position]!));
    return {
      ...byPosition.get(position)!,
      position,
      opening,
      isOpeningAssumed,
      joined: joined.map(({ count }) => count),
    };
  });
  const alone = unplaced.map(({ count, match }): Collection => {
    const before = positions.filter((position) => momentOf(reads.ordered[position]!) < momentOfCount(count));
    const opening = before.at(-1) ?? -1;
    return { counts: [count], match, position: -1, opening, isOpeningAssumed: false, joined: [] };
  });
  return [...placed, ...alone];
}

/**
 * The collection that a visit is counted from: the bag or service read before it. Where nothing at all is known of why
 * captures were taken, each stands for a visit (one capture a visit), and that is said.
 */
function findOpening(
  position: number,
  collectionBefore: number,
  reads: MachineReads,
): { opening: number; isOpeningAssumed: boolean } {
  const mayAssume = isReasonUnknown(reads) && position > 0;
  if (!mayAssume || collectionBefore === position - 1) return { opening: collectionBefore, isOpeningAssumed: false };
  return collectionBefore >= 0
    ? { opening: collectionBefore, isOpeningAssumed: false }
    : { opening: position - 1, isOpeningAssumed: true };
}

/** The moment of a visit; one that is known by its date alone is taken at noon, away from other days' edges. */
export function momentOfCount({ visitedAt }: CountRow): LocalDateTime {
  return `${visitedAt.date}T${visitedAt.time ?? '12:00:00'}`;
}

function momentOf(taken: TakenRead): LocalDateTime {
  return bestTime(taken) ?? '';
}

function liesBetween(count: CountRow, opening: TakenRead | undefined, visit: TakenRead): boolean {
  const moment = momentOfCount(count);
  return (opening === undefined || moment > momentOf(opening)) && moment < momentOf(visit);
}
