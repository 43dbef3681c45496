import type { CountRow } from '../model/index.js';
import type { MachineReads } from './machine-reads.js';
import type { MatchedCount } from './match-counts.js';
import { NO_MATCH, type VisitMatch } from './match-visit.js';
import { ReadIndex } from './read-index.js';
import { isSameVisit } from './same-visit.js';
import type { VisitRead } from './visit-read.js';
import { hullOf, type Span, spanOf, wholeDay } from './visit-span.js';

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
  readonly span: Span;
  /** Whether it surely belongs to one of several known service reads, so that it was collected by the last of these. */
  readonly isOfKnownReads: boolean;
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

/** What has no usable capture, in the order of time: bags, and faulty captures of visits without a bag. */
export function listUnplaced(
  matched: readonly MatchedCount[],
  placed: readonly PlacedVisit[],
  reads: MachineReads,
  windowMinutes: number,
): readonly UnplacedVisit[] {
  const bags = matched
    .filter(({ match }) => match.read === null || match.read.position < 0)
    .map(({ count, match }): UnplacedVisit => {
      const isCrowded = countRivals(match, matched) > match.candidates.length;
      const isOfKnownReads =
        match.candidates.length > 0 &&
        !isCrowded &&
        match.candidates.every(({ position, isService }) => position >= 0 && isService === true);
      return { counts: [count], match, span: spanOfUnplaced(count, match, isCrowded), isOfKnownReads };
    });
  const faulty = listFaultyVisits(bags, placed, reads, windowMinutes);
  return [...bags, ...faulty].sort((a, b) => compareText(a.span.latest, b.span.latest));
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** How many bags there are for the captures that may be one bag's own, this one included. */
function countRivals({ candidates }: VisitMatch, matched: readonly MatchedCount[]): number {
  const own = new Set(candidates);
  const isRival = ({ match }: MatchedCount): boolean =>
    match.candidates.some((each) => own.has(each)) || (match.read !== null && own.has(match.read));
  return candidates.length === 0 ? 0 : matched.filter(isRival).length;
}

/** Where there are more bags than captures, one of them is of a visit without a capture, at any time of its date. */
function spanOfUnplaced(count: CountRow, { read, candidates }: VisitMatch, isCrowded: boolean): Span {
  const timesOf = (reads: readonly VisitRead[]) => reads.map(({ time }) => time).filter((time) => time !== null);
  const times = timesOf(candidates);
  if (times.length === 0) return spanOf([count], timesOf(read === null ? [] : [read]));
  return hullOf([...times, ...(isCrowded ? wholeDay(count.visitedAt.date) : [])]);
}

/** Faulty captures known to be of visits that no bag claims and that lie beside no other visit's capture. */
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
    if (read.isService !== true || visits.near(read.minute, windowMinutes).length > 0) continue;
    if (read.minute - lastMinute > windowMinutes) {
      found.push({ counts: [], match: { ...NO_MATCH, read }, span: hullOf([read.time]), isOfKnownReads: false });
    }
    lastMinute = read.minute;
  }
  return found;
}
