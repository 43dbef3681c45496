import type { CountRow, LocalDateTime } from '../model/index.js';
import { momentOfCount } from './collection.js';
import { findDisorder } from './find-disorder.js';
import type { PlacedVisit, UnplacedVisit } from './place-visits.js';
import { type Span, spanOf } from './visit-span.js';

/** What lies between two collections that have a usable capture. */
export interface Gap {
  /** The collection that ends it; null behind the last one. */
  readonly visit: PlacedVisit | null;
  /** The one before it, as its place in the machine's order; -1 when there is none. */
  readonly before: number;
  /** What has no usable capture and surely lies between the two, earliest first. */
  readonly inside: readonly UnplacedVisit[];
  /** What has no usable capture and may lie elsewhere as well: it is settled with none. */
  readonly loose: readonly UnplacedVisit[];
  /** Bags that may lie here or elsewhere. */
  readonly looseBags: readonly CountRow[];
  /** Rows that claim the capture counted from together: one of them may have been collected since. */
  readonly rivals: readonly CountRow[];
  /** Whether the times of the visits say another order than the counters. */
  readonly isOrderUnclear: boolean;
}

/**
 * Put what has no usable capture between the collections that have one. Where it cannot be told on which side of a
 * collection it lies, what came in before that collection and after it cannot be told apart.
 */
export function splitGaps(placed: readonly PlacedVisit[], unplaced: readonly UnplacedVisit[]): Gap[] {
  const spans = spansInOrder(placed);
  const sides = unplaced.map((each) => findSides(each, placed, spans));
  const disorder = findDisorder(
    placed.map((visit) => ({ moment: momentOfPlaced(visit) || null, clock: visit.read.taken.read.clock })),
  );
  return [...placed, null].map((visit, i): Gap => {
    const own = sides.filter(({ gap }) => gap === i);
    const beside = sides.filter(({ unclear }) => unclear.includes(i) || unclear.includes(i - 1));
    const before = placed[i - 1];
    return {
      visit,
      before: before?.read.position ?? -1,
      inside: own.filter(({ isLoose }) => !isLoose).map(({ each }) => each),
      loose: own.filter(({ isLoose }) => isLoose).map(({ each }) => each),
      looseBags: beside.flatMap(({ each }) => each.counts),
      rivals: before !== undefined && before.counts.length > 1 ? before.counts : [],
      // What is counted from a collection whose place is in doubt is in doubt itself.
      isOrderUnclear: disorder.has(i) || disorder.has(i - 1) || beside.some(({ each }) => each.counts.length === 0),
    };
  });
}

/** When each collection was; where times run against the machine's order, it is no earlier than those before it. */
function spansInOrder(placed: readonly PlacedVisit[]): Span[] {
  const spans: Span[] = [];
  let latest = '';
  for (const { read, counts } of placed) {
    const own = spanOf(counts, read.time === null ? [] : [read.time]);
    const earliest = own.earliest > latest ? own.earliest : latest;
    if (own.latest > latest) latest = own.latest;
    spans.push({ earliest, latest });
  }
  return spans;
}

/** On which side of the collections something lies. */
interface Sides {
  readonly each: UnplacedVisit;
  /** The gap before the first collection that is surely later. */
  readonly gap: number;
  /** The collections that may be on either side of it, or that it may belong to. */
  readonly unclear: readonly number[];
  /** Whether it may lie elsewhere than in that gap. */
  readonly isLoose: boolean;
}

function findSides(each: UnplacedVisit, placed: readonly PlacedVisit[], spans: readonly Span[]): Sides {
  let gap = placed.length;
  const unclear: number[] = [];
  let isLoose = false;
  for (let i = placed.length - 1; i >= 0 && each.span.earliest <= spans[i]!.latest; i--) {
    if (each.span.latest < spans[i]!.earliest) {
      gap = i;
      continue;
    }
    isLoose = true;
    // All of them are collections, whichever is its own.
    const isOneOfItsOwn = each.isOfKnownReads && each.match.candidates.includes(placed[i]!.read);
    if (!isOneOfItsOwn) unclear.push(i);
  }
  return { each, gap, unclear, isLoose };
}

/** The time of the capture; where the sheet has another day, the sheet's: a clock can be wrong, a capture come late. */
function momentOfPlaced({ read, counts }: PlacedVisit): LocalDateTime {
  const count = counts[0];
  if (count === undefined) return read.time ?? '';
  return read.time?.startsWith(count.visitedAt.date) ? read.time : momentOfCount(count);
}
