import type { Finding, FindingDetail } from '../findings/index.js';
import type { Minor } from '../model/index.js';
import { weighFindings } from '../profile/index.js';
import { tellCredit } from './cash-findings.js';
import { isInterval } from './interval.js';
import type { Step } from './step.js';

/**
 * Say of machines' steps, in their order, how far customers' credit explains cash that is in neither sales nor change: credit
 * that stood at a read was put in before it and spent after it, so it is accepted only as far as the step on its other side
 * shows the same amount the other way round. What stays is a doubt, for an amount that was taken and counters that were changed
 * to fit look just so.
 *
 * @see domain rule: a customer's credit is accepted only as far as the interval before or after mirrors it
 */
export function mirrorCredits<S extends Step>(steps: readonly S[]): S[] {
  const credits = acceptCredits(steps);
  return steps.map((step, i) => {
    const standing = step.findings.find(isOfCredit);
    if (standing === undefined) return step;
    const { currency, decimals, cash, differences, findings } = step;
    const told = tellCredit({ currency, decimals, cash, outages: differences.powerFailures.value }, placeOf(standing), {
      before: credits[i] ?? 0,
      after: credits[i + 1] ?? 0,
    });
    const weighed = weighFindings(told, step.to.profile);
    const first = findings.indexOf(standing);
    const others = findings.filter((finding) => !isOfCredit(finding));
    return withFindings(step, [...others.slice(0, first), ...weighed, ...others.slice(first)]);
  });
}

/** Where a finding stands, without what it says. */
function placeOf({ code: _, severity: __, message: ___, advice: ____, ...place }: Finding): FindingDetail {
  return place;
}

/** Written out key by key, since a step may work its figures out only when they are asked for. */
function withFindings<S extends Step>(step: S, findings: readonly Finding[]): S {
  if (isInterval(step)) return { ...step, findings };
  const { from, to, currency, decimals, basis, floor, columns, totals, cash, differences } = step;
  const { isSameMoney, usesIntervalCounters, restart, reset } = step;
  const copy: Step = {
    ...{ from, to, currency, decimals, basis, floor, columns, totals, cash, differences },
    ...{ isSameMoney, usesIntervalCounters, restart, reset, findings },
  };
  return copy as S;
}

const isOfCredit = ({ code }: Finding): boolean => code === 'credit-standing';

/** The credit at each read, first to last, that both intervals beside it show: what came in more before it and less after. */
function acceptCredits(intervals: readonly Step[]): Minor[] {
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
