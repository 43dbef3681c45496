import type { Minor } from '../model/index.js';
import { add, subtract } from '../model/index.js';
import type { Read } from '../read/index.js';
import type { Difference } from './difference.js';
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
 * dispensed by hand (from memory): a profile says, else the reading that closes is taken, else the one that agrees with the
 * customers' side, else the one that leaves less unexplained.
 */
export function readTubes(pair: ReadPair, moved: TubeMovements): TubeReading {
  const from = tubeContents(pair.from.read);
  const to = tubeContents(pair.to.read);
  const dispensed = moved.dispensed.value;
  const hand = valueOrNothing(moved.byHand);
  const held = pair.isRestarted ? null : add(from, moved.toTubes.value, valueOrNothing(moved.filled));
  const included = subtract(to, subtract(held, dispensed));
  if (hand === null || hand === 0) {
    const isKnown = hand === 0;
    return {
      from,
      to,
      difference: isKnown ? included : null,
      includesByHand: null,
      change: isKnown ? dispensed : null,
    };
  }
  const apart = add(included, hand);
  const isIncluded = pair.to.profile?.dispensedIncludesByHand ?? chooseReading(apart, included, moved, hand);
  const change = isIncluded === null ? null : isIncluded ? subtract(dispensed, hand) : dispensed;
  return { from, to, difference: isIncluded ? included : apart, includesByHand: isIncluded, change };
}

/**
 * What a counter moved by, where one that neither read has plays no part: a machine that books no fills has none to add.
 * A counter that is not known for any other reason stays not known.
 */
export function valueOrNothing({ value, why }: Difference): Minor | null {
  return value ?? (why === 'absent' ? 0 : null);
}

function chooseReading(
  apart: Minor | null,
  included: Minor | null,
  { dispensed, changeBySales }: TubeMovements,
  hand: Minor,
): boolean | null {
  if (apart === 0) return false;
  if (included === 0) return true;
  if (changeBySales !== null) {
    if (changeBySales === dispensed.value) return false;
    if (changeBySales === subtract(dispensed.value, hand)) return true;
  }
  if (apart === null || included === null) return null;
  return Math.abs(included) < Math.abs(apart);
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
