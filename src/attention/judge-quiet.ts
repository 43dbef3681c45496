import { type Count, type LocalDateTime, minutesBetween } from '../model/index.js';
import { DAY_MINUTES } from './estimate.js';
import { countQuiet, minutesOf, type PastStretch } from './sales-history.js';

/** A machine that has sold nothing for longer than chance explains. */
export interface Quiet {
  readonly since: LocalDateTime;
  readonly until: LocalDateTime;
  readonly minutes: number;
  /** What it sold before, and in which time. */
  readonly soldBefore: Count;
  readonly minutesBefore: number;
  /** ln of the probability that this is chance. */
  readonly logProbability: number;
}

/** Below this probability it is not taken for chance. */
export const QUIET_PROBABILITY = 0.001;

/** The same hours of so many weeks before are looked at, and must have been quiet to this part. */
const WEEKS = 4;
const SAME_PART = 0.9;

/**
 * Judge whether a machine that used to sell has stopped: it sold nothing in all stretches at the end, and that is less
 * likely than 1 in 1000 if it went on selling as before.
 *
 * Vends are taken for a Poisson process of one rate. Of n vends in the time h before and the quiet time t together, all
 * fall into h by chance with (h / (h + t))^n: the exact test of two Poisson counts given their sum (Przyborowski and
 * Wilenski, Biometrika 31, 1940; from memory), which also minds that a rate known from few vends is not well known. That it
 * is applied here is common practice of statistics, not a rule of the trade. Sales follow the clock and the week, so it is
 * not said where the same hours of one of the four weeks before were quiet as well.
 *
 * @returns null when it did sell, never sold, or the quiet may be chance
 */
export function judgeQuiet(stretches: readonly PastStretch[]): Quiet | null {
  const count = countQuiet(stretches);
  const quiet = stretches.slice(stretches.length - count);
  const before = stretches.slice(0, stretches.length - count).filter(({ sold, floor }) => sold !== null && !floor);
  if (quiet.length === 0) return null;
  const minutes = sumMinutes(quiet);
  const minutesBefore = sumMinutes(before);
  const soldBefore = before.reduce((sum, { sold }) => sum + sold!, 0);
  const logProbability = logOfAllBefore(soldBefore, minutesBefore, minutes);
  if (soldBefore === 0 || logProbability >= Math.log(QUIET_PROBABILITY)) return null;
  const since = quiet[0]!.from;
  const until = quiet.at(-1)!.to;
  if (isUsuallyQuiet({ since, until }, before)) return null;
  return { since, until, minutes, soldBefore, minutesBefore, logProbability };
}

/**
 * ln of the probability that all of n vends fall into the earlier of two times. In logarithms, since the probability itself
 * is soon too small for any number.
 */
export function logOfAllBefore(vends: Count, minutesBefore: number, minutesAfter: number): number {
  // ln(h / (h + t)) = −ln(1 + t / h); exact also where t is small beside h.
  return vends === 0 ? 0 : -vends * Math.log1p(minutesAfter / minutesBefore);
}

function sumMinutes(stretches: readonly PastStretch[]): number {
  return stretches.reduce((sum, stretch) => sum + minutesOf(stretch), 0);
}

interface Span {
  readonly since: LocalDateTime;
  readonly until: LocalDateTime;
}

function isUsuallyQuiet(span: Span, before: readonly PastStretch[]): boolean {
  const length = minutesBetween(span.since, span.until);
  for (let week = 1; week <= WEEKS; week++) {
    const shift = week * 7 * DAY_MINUTES;
    const same = before
      .filter(({ sold }) => sold === 0)
      .reduce((sum, { from, to }) => sum + overlap(span, from, to, shift), 0);
    if (same >= length * SAME_PART) return true;
  }
  return false;
}

/** How many minutes of a stretch lie within the span put back by some minutes. */
function overlap({ since, until }: Span, from: LocalDateTime, to: LocalDateTime, shift: number): number {
  const start = Math.max(minutesBetween(since, from) + shift, 0);
  const end = Math.min(minutesBetween(since, to) + shift, minutesBetween(since, until));
  return Math.max(0, end - start);
}
