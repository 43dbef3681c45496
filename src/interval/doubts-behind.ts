import type { Finding } from '../findings/index.js';
import type { PlacedRead, Step } from './step.js';

const ADVICE =
  'Look for a sound copy of this capture, or read the machine once more and compare, before you rely on what is worked out from it.';

/** What the doubts of captures are to a figure that rests on them: the machine as it stood then cannot be read again. */
export function carryDoubts(reads: Iterable<PlacedRead>): Finding[] {
  return [...new Set(reads)].flatMap(({ doubts }) =>
    doubts.map(({ cautions: _, ...finding }): Finding => ({ ...finding, advice: ADVICE })),
  );
}

/**
 * The doubts of the captures that sums over these steps rest on. What counters moved by from read to read adds up to what they
 * moved by from first to last, so that a read in between bears on it only where counters started again or were cleared.
 *
 * @param steps - of one machine, in order
 */
export function doubtsBehind(steps: readonly Step[]): Finding[] {
  const restsOnAll = steps.some(({ restart, usesIntervalCounters }) => restart !== null || usesIntervalCounters);
  const reads = steps.flatMap(({ from, to }, place): PlacedRead[] => [
    ...(restsOnAll || from !== steps[place - 1]?.to ? [from] : []),
    ...(restsOnAll || to !== steps[place + 1]?.from ? [to] : []),
  ]);
  return carryDoubts(reads);
}

/** All that is to be said of what a step tells: what was found between its reads, and the doubts that these carry into it. */
export function tellStep(step: Step): readonly Finding[] {
  const carried = doubtsBehind([step]);
  return carried.length === 0 ? step.findings : [...step.findings, ...carried];
}
