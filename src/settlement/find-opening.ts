import type { MachineReads } from './machine-reads.js';
import { isNear } from './same-visit.js';
import type { VisitRead } from './visit-read.js';

/** The collection that a visit is counted from. */
export interface Opening {
  /** Its place in the machine's order; -1 when there is none. */
  readonly position: number;
  /** Whether it is taken to be a collection only because nothing says why its capture was taken. */
  readonly isAssumed: boolean;
}

/**
 * The collection that a visit is counted from: the bag or service read before it. Where there is none, and nothing at all
 * is known of why captures were taken, each stands for a visit (one capture a visit), and that is said. Captures beside
 * the visit's own are of the same visit.
 *
 * @param collectionBefore - the collection before in the machine's order, -1 when there is none
 */
export function findOpening(
  visit: VisitRead,
  collectionBefore: number,
  reads: MachineReads,
  windowMinutes: number,
): Opening {
  if (collectionBefore >= 0 || !reads.isReasonUnknown) return { position: collectionBefore, isAssumed: false };
  let position = visit.position - 1;
  while (position >= 0 && isNear(reads.usable.all[position]!, visit, windowMinutes)) position--;
  return { position, isAssumed: position >= 0 };
}

/** How many captures between a visit and its opening may have been visits as well, since nothing says why they were taken. */
export function countUnclearReads(
  visit: VisitRead,
  opening: number,
  reads: MachineReads,
  windowMinutes: number,
): number {
  const from = reads.usable.all[opening];
  if (from === undefined || !reads.isReasonUnknown) return 0;
  const between = reads.usable.all.slice(opening + 1, visit.position);
  return between.filter((read) => !isNear(read, visit, windowMinutes) && !isNear(read, from, windowMinutes)).length;
}
