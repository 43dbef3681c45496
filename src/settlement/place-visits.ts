import type { CountRow, LocalDateTime } from '../model/index.js';
import { momentOfCount } from './collection.js';
import type { MachineReads } from './machine-reads.js';
import type { MatchedCount } from './match-counts.js';
import { NO_MATCH, type VisitMatch } from './match-visit.js';
import { ReadIndex } from './read-index.js';
import { isSameVisit } from './same-visit.js';
import type { VisitRead } from './visit-read.js';

/** A collection with a usable capture, before it is known what else belongs to it. */
export interface PlacedVisit {
  readonly read: VisitRead;
  readonly counts: readonly CountRow[];
  /** Null for a service read that is one of several captures that fit a bag: it must not be claimed as uncounted. */
  readonly match: VisitMatch | null;
}

/** A bag, or a faulty capture without a bag, that has no place in the machine's order but its time. */
export interface UnplacedVisit {
  readonly counts: readonly CountRow[];
  readonly match: VisitMatch;
  readonly moment: LocalDateTime;
}

/** The collections with a usable capture, in the machine's order: matched bags, and service reads without one. */
export function placeVisits(
  matched: readonly MatchedCount[],
  reads: MachineReads,
  windowMinutes: number,
): readonly PlacedVisit[] {
  const bags = gatherBags(matched);
  const candidates = new Set(matched.flatMap(({ match }) => match.candidates));
  const visits = reads.usable.all.filter((read) => bags.has(read) || read.isService === true);
  const nextWithBag = findNextWithBag(visits, bags);
  const placed: PlacedVisit[] = [];
  for (const [i, read] of visits.entries()) {
    const own = bags.get(read);
    if (own !== undefined) {
      placed.push({ read, ...own });
      continue;
    }
    // Read twice at one visit: the other read has the bag, or stands for both.
    const isRepeat = [placed.at(-1)?.read, nextWithBag[i]].some(
      (other) => other !== undefined && isSameVisit(read, other, reads, windowMinutes),
    );
    if (!isRepeat) placed.push({ read, counts: [], match: candidates.has(read) ? null : { ...NO_MATCH, read } });
  }
  return placed;
}

/** Rows of the sheet by the usable capture they were matched to. */
function gatherBags(matched: readonly MatchedCount[]): Map<VisitRead, { counts: CountRow[]; match: VisitMatch }> {
  const bags = new Map<VisitRead, { counts: CountRow[]; match: VisitMatch }>();
  for (const { count, match } of matched) {
    if (match.read === null || match.read.position < 0) continue;
    const own = bags.get(match.read);
    if (own === undefined) bags.set(match.read, { counts: [count], match });
    else own.counts.push(count);
  }
  return bags;
}

function findNextWithBag(
  visits: readonly VisitRead[],
  bags: ReadonlyMap<VisitRead, unknown>,
): (VisitRead | undefined)[] {
  const next: (VisitRead | undefined)[] = [];
  let found: VisitRead | undefined;
  for (let i = visits.length - 1; i >= 0; i--) {
    next[i] = found;
    if (bags.has(visits[i]!)) found = visits[i];
  }
  return next;
}

/** What has no usable capture, in the order of time: bags, and faulty captures that may stand for a visit. */
export function listUnplaced(
  matched: readonly MatchedCount[],
  placed: readonly PlacedVisit[],
  reads: MachineReads,
  windowMinutes: number,
): readonly UnplacedVisit[] {
  const bags = matched
    .filter(({ match }) => match.read === null || match.read.position < 0)
    .map(({ count, match }) => ({ counts: [count], match, moment: momentOfUnplaced(count, match) }));
  const faulty = listFaultyVisits(bags, placed, reads, windowMinutes);
  return [...bags, ...faulty].sort((a, b) => (a.moment < b.moment ? -1 : a.moment > b.moment ? 1 : 0));
}

/** Behind all captures that may be a bag's own, so that no visit among them is settled with it. */
function momentOfUnplaced(count: CountRow, { read, candidates }: VisitMatch): LocalDateTime {
  const times = [...candidates, ...(read === null ? [] : [read])]
    .map(({ time }) => time)
    .filter((time) => time !== null);
  return times.sort().at(-1) ?? momentOfCount(count);
}

/** Faulty captures of visits that no bag claims and that lie beside no other visit's capture. */
function listFaultyVisits(
  bags: readonly UnplacedVisit[],
  placed: readonly PlacedVisit[],
  reads: MachineReads,
  windowMinutes: number,
): UnplacedVisit[] {
  const claimed = bags.flatMap(({ match }) => (match.read === null ? match.candidates : [match.read]));
  const visits = new ReadIndex([...placed.map(({ read }) => read), ...claimed]);
  const found: UnplacedVisit[] = [];
  let lastMinute = Number.NEGATIVE_INFINITY;
  for (const read of reads.faulty.earliestFirst) {
    const mayBeVisit = read.isService === true || (read.isService === null && reads.isReasonUnknown);
    if (!mayBeVisit || visits.near(read.minute, windowMinutes).length > 0) continue;
    if (read.minute - lastMinute > windowMinutes) {
      found.push({ counts: [], match: { ...NO_MATCH, read }, moment: read.time });
    }
    lastMinute = read.minute;
  }
  return found;
}
