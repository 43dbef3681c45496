import type { DepositMatch, DepositMatches } from './deposit-match.js';
import { sumDeposits } from './deposit-totals.js';
import type { StatementPeriod } from './location-statement.js';

/**
 * Only what belongs to a period, with sums of its own. Card sales and what stands against them belong to the day of their
 * later read; a deposit without sales to its own date. What has no day may be of any, and stays.
 *
 * It is to be used after matching, never before: a deposit may pay for sales before the period.
 */
export function limitDeposits({ matches }: DepositMatches, period: StatementPeriod): DepositMatches {
  const own = matches.filter((match) => mayBeIn(period, match));
  return { matches: own, totals: sumDeposits(own) };
}

function mayBeIn({ from = '', to = '9' }: StatementPeriod, match: DepositMatch): boolean {
  const day = dayOf(match);
  return day === null || (day >= from && day <= to);
}

function dayOf({ to, intervals, deposits }: DepositMatch): string | null {
  if (intervals.length > 0) return to?.slice(0, 10) ?? null;
  const dates = deposits.map(({ date }) => date).sort();
  return dates.at(-1) ?? null;
}
