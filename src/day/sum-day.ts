import type { CaptureCheck } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import type { Step } from '../interval/index.js';
import { add } from '../model/index.js';
import type { DayFiles, DayTotals } from './day.js';

/**
 * Count how the day's files came out.
 *
 * @param findings - those on the day's reads, of which duplicates are counted
 */
export function countFiles(checks: readonly CaptureCheck[], findings: readonly Finding[]): DayFiles {
  const of = (verdict: CaptureCheck['verdict']): number => checks.filter((check) => check.verdict === verdict).length;
  return {
    files: checks.length,
    sound: of('sound'),
    doubtful: of('doubtful'),
    readAgain: of('read-again'),
    setAside: checks.filter(({ reads }) => reads.length === 0).length,
    reads: checks.reduce((sum, { reads }) => sum + reads.length, 0),
    duplicates: findings.filter(({ code }) => code === 'duplicate-read').length,
  };
}

/** What was sold, currency by currency, in the order of their names. */
export function sumIntervals(intervals: readonly Step[]): DayTotals[] {
  return joinTotals(
    intervals.map(({ currency, decimals, totals: { sold, value } }) => {
      const isKnown = sold !== null && value !== null;
      const sums = isKnown ? { sold, value } : { sold: 0, value: 0 };
      return { currency, decimals, ...sums, intervals: 1, openIntervals: isKnown ? 0 : 1 };
    }),
  );
}

/** Add up totals of the same currency. Where all intervals are open, nothing is known. */
export function joinTotals(totals: readonly DayTotals[]): DayTotals[] {
  const joined = new Map<string, DayTotals>();
  for (const one of totals) {
    const key = `${one.currency} ${one.decimals}`;
    const before = joined.get(key);
    joined.set(key, before === undefined ? one : addTotals(before, one));
  }
  return [...joined]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([, sum]) => (sum.intervals === sum.openIntervals ? { ...sum, sold: null, value: null } : sum));
}

function addTotals(a: DayTotals, b: DayTotals): DayTotals {
  return {
    ...a,
    sold: sumOfKnown(a.sold, b.sold),
    value: sumOfKnown(a.value, b.value),
    intervals: a.intervals + b.intervals,
    openIntervals: a.openIntervals + b.openIntervals,
  };
}

/** Only one in which all intervals are open has no sum. */
function sumOfKnown(a: number | null, b: number | null): number | null {
  return a === null || b === null ? (a ?? b) : add(a, b);
}
