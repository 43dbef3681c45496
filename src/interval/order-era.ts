import { ELEMENT } from '../dictionary/index.js';
import type { LocalDateTime } from '../model/index.js';
import { isRise, measureFall } from './lifetime-fall.js';
import { compareProgress, type LifetimeVector, LifetimeVectors } from './lifetime-vector.js';
import type { TakenRead } from './taken-read.js';

/** A read with everything it can be ordered by, looked up once. */
interface Ranked {
  readonly taken: TakenRead;
  readonly reads: number | null;
  /** EA301: makers differ on what it counts, but for an identifier it grows. */
  readonly resets: number | null;
  readonly clock: LocalDateTime | null;
  readonly received: LocalDateTime | null;
  readonly counters: LifetimeVector;
}

type Key = Exclude<keyof Ranked, 'taken' | 'counters'>;

/** From the first on, whichever every read has; a later key decides where an earlier one is equal. */
const ORDERS: readonly (readonly Key[])[] = [
  ['reads', 'resets', 'clock', 'received'],
  ['clock', 'reads', 'received'],
  ['received', 'clock'],
];

/**
 * The reads of one era in order: by the read counters, then clock, then time received. Of the orders that can be made the
 * first one is taken in which no lifetime counter goes down or away, since makers differ on what they count as a read, and
 * clocks are set wrong. The counters themselves come last.
 *
 * @param timeOf - a time that every read has: then it alone decides
 */
export function orderEra(
  reads: readonly TakenRead[],
  timeOf?: (taken: TakenRead) => LocalDateTime | null,
): TakenRead[] {
  if (reads.length === 1) return [...reads];
  const ranked = rankAll(reads);
  if (timeOf !== undefined) return sortBy(ranked, (a, b) => compareText(timeOf(a.taken)!, timeOf(b.taken)!));
  let best: TakenRead[] | null = null;
  let leastGone = Number.POSITIVE_INFINITY;
  for (const keys of [...ORDERS, []]) {
    const usable = keys.filter((key) => ranked.every((one) => one[key] !== null));
    // Without any key the counters themselves decide.
    if (usable.length === 0 && keys.length > 0) continue;
    const ordered = sortBy(ranked, (a, b) => compareKeys(a, b, usable));
    const falls = ordered.slice(1).map((taken, i) => measureFall(ordered[i]!, taken));
    const gone = falls.every(isRise) ? falls.reduce((sum, fall) => sum + fall.gone, 0) : Number.MAX_SAFE_INTEGER;
    if (gone === 0) return ordered;
    if (gone < leastGone) [best, leastGone] = [ordered, gone];
  }
  return best!;
}

function rankAll(reads: readonly TakenRead[]): Ranked[] {
  const vectors = new LifetimeVectors();
  return reads.map((taken) => {
    const { read, profile, receivedAt } = taken;
    return {
      taken,
      reads: read.integer(ELEMENT.EA309),
      resets: profile?.ea301 === 'identifier' ? null : read.integer(ELEMENT.EA301),
      clock: read.clock,
      received: receivedAt,
      counters: vectors.of(read),
    };
  });
}

/** What is equal by the order asked for goes by how far it counted, then by name: no order depends on that of the input. */
function sortBy(ranked: readonly Ranked[], order: (a: Ranked, b: Ranked) => number): TakenRead[] {
  const sorted = [...ranked].sort(
    (a, b) =>
      order(a, b) ||
      -compareProgress(a.counters, b.counters) ||
      compareText(a.taken.file, b.taken.file) ||
      a.taken.read.number - b.taken.read.number,
  );
  return sorted.map(({ taken }) => taken);
}

function compareKeys(a: Ranked, b: Ranked, keys: readonly Key[]): number {
  for (const key of keys) {
    const [one, other] = [a[key]!, b[key]!];
    if (one !== other) return one < other ? -1 : 1;
  }
  return 0;
}

/** Order of plain text, by code unit: dates and times without a zone sort by it. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
