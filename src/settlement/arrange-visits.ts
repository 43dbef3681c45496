import type { CountRow, LocalDateTime } from '../model/index.js';
import type { Collection } from './collection.js';
import type { MachineReads } from './machine-reads.js';
import { matchCounts } from './match-counts.js';
import { listUnplaced, placeVisits, type UnplacedVisit } from './place-visits.js';
import { withOneServiceAFile } from './service-of-file.js';
import { type Gap, splitGaps } from './split-gaps.js';
import { countUnclearReads } from './unclear-reads.js';

/**
 * How a machine's bags and reads belong together. Every bag comes out once as a collection of its own, or with others
 * that claim the same capture; one without a usable capture is also joined to the collections after it, up to the next
 * that has one. A collection is counted from the one before: a bag's capture, or a known service read, and no other read.
 *
 * @returns collections in the machine's order, those without a usable capture before the one they are settled on
 */
export function arrangeVisits(
  counts: readonly CountRow[],
  machineReads: MachineReads,
  windowMinutes: number,
): readonly Collection[] {
  const reads = withOneServiceAFile(machineReads);
  const matched = matchCounts(counts, reads, windowMinutes);
  const placed = placeVisits(matched, reads, windowMinutes);
  const unplaced = listUnplaced(matched, placed, reads, windowMinutes);
  return splitGaps(placed, unplaced).flatMap((gap) => [
    ...gap.loose.map((each) => leaveLoose(each, gap)),
    ...standAlone(gap, reads),
    ...settleOn(gap, reads, windowMinutes),
  ]);
}

/** What holds for each collection of a gap. */
const sharedOf = ({ looseBags, rivals, isOrderUnclear }: Gap) => ({ looseBags, rivals, isOrderUnclear });

/** A collection of its own for what may lie on either side of another: nothing is known of what belongs in it. */
function leaveLoose({ counts, match }: UnplacedVisit, gap: Gap): Collection {
  const nowhere = counts.length > 0 ? -1 : gap.before;
  const rest = { unclearReads: 0, joined: [], unknownBags: [], settledWith: null };
  return { counts, match, position: -1, opening: nowhere, known: nowhere, ...rest, ...sharedOf(gap) };
}

const timeAt = (reads: MachineReads, position: number): LocalDateTime => reads.usable.all[position]?.time ?? '';

/** Collections of their own for what has no usable capture, earliest first: known up to the last read before each. */
function standAlone(gap: Gap, reads: MachineReads): Collection[] {
  const { visit, before, inside } = gap;
  const limit = visit?.read.position ?? reads.usable.all.length;
  return inside.map((each): Collection => {
    // What may have been collected before it is in what is known up to it.
    const others = inside.filter((other) => other !== each && other.span.earliest <= each.span.latest);
    return {
      counts: each.counts,
      match: each.match,
      position: -1,
      opening: before,
      known: findKnown(each, before, limit, reads),
      unclearReads: 0,
      settledWith: each.counts.length > 0 ? settledWithOf(gap) : null,
      ...joinTo(before, others),
      ...sharedOf(gap),
    };
  });
}

/** Only as far as the times rise: one that does not fit may be of a later read with a wrong clock. */
function findKnown({ span, match }: UnplacedVisit, opening: number, limit: number, reads: MachineReads): number {
  let known = opening;
  while (opening >= 0 && known + 1 < limit) {
    const time = timeAt(reads, known + 1);
    // The first of several captures that may be its own is no later than the bag.
    const isBefore = time < span.earliest || (time === span.earliest && match.candidates.length > 0);
    if (time === '' || time < timeAt(reads, known) || !isBefore) break;
    known++;
  }
  return known;
}

/** On what the bags of a gap are settled: the bag that ends it, the next one there will be, or nothing. */
function settledWithOf({ visit, before }: Gap): Collection['settledWith'] {
  return before < 0 ? null : (visit?.counts.at(-1) ?? 'next');
}

function settleOn(gap: Gap, reads: MachineReads, windowMinutes: number): Collection[] {
  const { visit, before, inside } = gap;
  if (visit === null || visit.match === null) return [];
  const { counts, match, read } = visit;
  return [
    {
      counts,
      match,
      position: read.position,
      opening: before,
      known: read.position,
      unclearReads: countUnclearReads(read, before, reads, windowMinutes),
      settledWith: null,
      ...joinTo(before, inside),
      ...sharedOf(gap),
    },
  ];
}

/** Bags without a usable capture, and captures without a bag, whose money lies in the same sum; none without an opening. */
function joinTo(opening: number, others: readonly UnplacedVisit[]): Pick<Collection, 'joined' | 'unknownBags'> {
  if (opening < 0) return { joined: [], unknownBags: [] };
  return {
    joined: others.flatMap(({ counts }) => counts),
    unknownBags: others.flatMap(({ counts, match }) => (counts.length === 0 ? [match.read!] : [])),
  };
}
