import { expectCash, isNothing } from './expected-cash.js';
import type { MachineReads } from './machine-reads.js';
import type { VisitRead } from './visit-read.js';

const NO_HAND = { counts: [], ignore: false } as const;

/**
 * Whether two usable reads are of one visit, taken twice: close together, and nothing moved in between that would be in
 * a bag. Which of the two stands for the visit makes no difference to any figure.
 */
export function isSameVisit(a: VisitRead, b: VisitRead, reads: MachineReads, windowMinutes: number): boolean {
  if (a.position < 0 || b.position < 0 || !isNear(a, b, windowMinutes)) return false;
  const [from, to] = a.position < b.position ? [a.position, b.position] : [b.position, a.position];
  return reads.usable.all.slice(from + 1, to + 1).every(({ taken }) => {
    const step = reads.stepTo.get(taken);
    return step !== undefined && isNothing(expectCash([step], NO_HAND));
  });
}

/** Whether two reads lie no further apart than the window of a visit. */
export function isNear(a: VisitRead, b: VisitRead, windowMinutes: number): boolean {
  return a.minute !== null && b.minute !== null && Math.abs(a.minute - b.minute) <= windowMinutes;
}
