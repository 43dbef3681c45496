import type { Minor } from '../model/index.js';
import { add, subtract } from '../model/index.js';
import type { Read } from '../read/index.js';
import { coversSameTime, type Difference, valueOrNothing } from './difference.js';
import type { ReadPair } from './read-pair.js';

/** What the tubes should have done between two reads, and did. Minor units; null is not known. */
export interface TubeReading {
  readonly from: Minor | null;
  readonly to: Minor | null;
  /** Tubes now less what they should hold; below 0 coins are gone. */
  readonly difference: Minor | null;
  /** Whether CA403 includes what was dispensed by hand; null when it makes no difference or can not be told. */
  readonly includesByHand: boolean | null;
  /** Change given to customers: CA403, less what was dispensed by hand where that is in it. */
  readonly change: Minor | null;
  /** Where it can not be told whether CA403 includes it: the two differences that there may be. */
  readonly either: readonly [apart: Minor, included: Minor] | null;
}

/** What moved between two reads, as the counters give it. */
export interface TubeMovements {
  readonly toTubes: Difference;
  /** CA403, as it stands. */
  readonly dispensed: Difference;
  readonly byHand: Difference;
  readonly filled: Difference;
  /** What change must be by the customers' side (cash in − sales − overpaid − credited), where that is known. */
  readonly changeBySales: Minor | null;
}

/**
 * Tubes now against tubes before + to tubes − dispensed + filled. Makers differ on whether CA403 includes what was
 * dispensed by hand (from memory): a profile says, else the reading that agrees with the customers' side to the cent is
 * taken, else the one that closes. Where neither does it is not known.
 */
export function readTubes(pair: ReadPair, moved: TubeMovements): TubeReading {
  const from = tubeContents(pair.from.read);
  const to = tubeContents(pair.to.read);
  const included = differenceIfIncluded(pair, from, to, moved);
  const dispensed = moved.dispensed.value;
  const hand = valueOrNothing(moved.byHand);
  const unclear = { from, to, difference: null, includesByHand: null, change: null, either: null };
  if (hand === null || dispensed === null) return unclear;
  if (hand === 0) return { ...unclear, difference: included, change: dispensed };
  const apart = add(included, hand);
  const includesByHand =
    pair.to.profile?.dispensedIncludesByHand ??
    chooseReading({ apart, included, dispensed, hand }, moved.changeBySales);
  if (includesByHand === null) {
    return apart === null || included === null ? unclear : { ...unclear, either: [apart, included] };
  }
  return {
    ...unclear,
    difference: includesByHand ? included : apart,
    includesByHand,
    change: includesByHand ? takeHand(moved, hand) : dispensed,
  };
}

/** CA403 less what was dispensed by hand; null where the two do not cover the same time, or can not be meant so. */
function takeHand({ dispensed, byHand }: TubeMovements, hand: Minor): Minor | null {
  const change = coversSameTime(dispensed, byHand) ? subtract(dispensed.value, hand) : null;
  return change === null || change < 0 ? null : change;
}

/**
 * Tubes now less what they should hold if CA403 includes what was dispensed by hand. Not known across a restart, or where
 * the counters do not cover all the time since the earlier read.
 */
function differenceIfIncluded(
  pair: ReadPair,
  from: Minor | null,
  to: Minor | null,
  moved: TubeMovements,
): Minor | null {
  const { toTubes, dispensed, byHand, filled } = moved;
  if (pair.restart !== null || [toTubes, dispensed, byHand, filled].some(({ floor }) => floor)) return null;
  const held = add(from, toTubes.value, valueOrNothing(filled));
  return subtract(to, subtract(held, dispensed.value));
}

interface Readings {
  readonly apart: Minor | null;
  readonly included: Minor | null;
  readonly dispensed: Minor;
  readonly hand: Minor;
}

function chooseReading({ apart, included, dispensed, hand }: Readings, changeBySales: Minor | null): boolean | null {
  // Less than what was dispensed by hand: it can not include that.
  if (dispensed < hand) return false;
  if (changeBySales === dispensed) return false;
  if (changeBySales === dispensed - hand) return true;
  if (apart === 0) return false;
  if (included === 0) return true;
  return null;
}

/** What the tubes hold: CA15, else the coins of every tube at their value; null when neither is given in full. */
export function tubeContents(read: Read): Minor | null {
  const stated = read.integer('CA1501');
  if (stated !== null) return stated;
  const lines = read.lines('CA17');
  if (lines.length === 0 || read.has('CA15')) return null;
  let sum: number | null = 0;
  for (const line of lines) {
    const value = read.block.number(line, 2);
    const coins = read.block.number(line, 3);
    sum = value === null || coins === null ? null : add(sum, value * coins);
  }
  return sum;
}
