import type { Finding } from '../findings/index.js';
import type { Minor } from '../model/index.js';
import { weighFindings } from '../profile/index.js';
import { tellCredit } from './cash-findings.js';
import type { Interval } from './interval.js';

/**
 * Say of a machine's intervals, in their order and without gaps, how far customers' credit explains cash that is in neither
 * sales nor change: credit that stood at a read was put in before it and spent after it, so it is accepted only as far as
 * the interval on its other side shows the same amount the other way round. What stays is a doubt, for an amount that was
 * taken and counters that were changed to fit look just so.
 *
 * @see domain rule: a customer's credit is accepted only as far as the interval before or after mirrors it
 */
export function mirrorCredits(intervals: readonly Interval[]): Interval[] {
  const credits = acceptCredits(intervals);
  return intervals.map((interval, i) => {
    if (!interval.findings.some(isOfCredit)) return interval;
    const told = tellCredit(interval.pair, interval.cash, { before: credits[i] ?? 0, after: credits[i + 1] ?? 0 });
    const weighed = weighFindings(told, interval.to.profile);
    const first = interval.findings.findIndex(isOfCredit);
    const others = interval.findings.filter((finding) => !isOfCredit(finding));
    return { ...interval, findings: [...others.slice(0, first), ...weighed, ...others.slice(first)] };
  });
}

const isOfCredit = ({ code }: Finding): boolean => code === 'credit-standing';

/** The credit at each read, first to last, that both intervals beside it show: what came in more before it and less after. */
function acceptCredits(intervals: readonly Interval[]): Minor[] {
  const credits = Array.from({ length: intervals.length + 1 }, () => 0);
  for (let i = 1; i < intervals.length; i++) {
    const [earlier, later] = [intervals[i - 1]!, intervals[i]!];
    if (earlier.to !== later.from) continue;
    // What the earlier interval has over once it has used up what stood at its own beginning.
    const lent = (earlier.cash.customerDifference ?? 0) + credits[i - 1]!;
    const back = -(later.cash.customerDifference ?? 0);
    const isKnown = earlier.cash.customerDifference !== null && later.cash.customerDifference !== null;
    if (isKnown && lent > 0 && back > 0) credits[i] = Math.min(lent, back);
  }
  return credits;
}
