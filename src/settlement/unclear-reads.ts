import type { MachineReads } from './machine-reads.js';
import { isNear } from './same-visit.js';
import type { VisitRead } from './visit-read.js';

/**
 * How many captures between a visit and the collection it is counted from may have been visits as well, since nothing says
 * why they were taken. They open nothing (domain rule): a bag of theirs that is missing shows as a difference.
 *
 * @param opening - the collection before, as its place in the machine's order, -1 when there is none
 */
export function countUnclearReads(
  visit: VisitRead,
  opening: number,
  reads: MachineReads,
  windowMinutes: number,
): number {
  const from = reads.usable.all[opening];
  if (from === undefined) return 0;
  const between = reads.usable.all.slice(opening + 1, visit.position);
  const isBeside = (read: VisitRead): boolean =>
    isNear(read, visit, windowMinutes) || isNear(read, from, windowMinutes);
  return between.filter((read) => read.isService === null && !isBeside(read)).length;
}
