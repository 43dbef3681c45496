import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeQuiet, logOfAllBefore, QUIET_PROBABILITY } from '../../src/attention/index.js';
import { arbitrarySales, chain, days, stretch } from './stretches.js';

/** Whether (h / (h + t))^n is below 1 in 1000, in whole numbers of any size: no rounding anywhere. */
function isBelow(vends: number, before: number, after: number): boolean {
  return 1000n * BigInt(before) ** BigInt(vends) < BigInt(before + after) ** BigInt(vends);
}

describe('logOfAllBefore', () => {
  it('agrees with the probability worked out in whole numbers', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 1, max: 40_000 }),
        fc.integer({ min: 1, max: 20_000 }),
        (vends, before, after) => {
          const log = logOfAllBefore(vends, before, after);
          // So near to the limit that the last digit of a logarithm decides there is nothing to compare.
          fc.pre(Math.abs(log - Math.log(QUIET_PROBABILITY)) > 1e-9);
          expect(log < Math.log(QUIET_PROBABILITY)).toBe(isBelow(vends, before, after));
        },
      ),
    );
  });

  it('stays exact where the probability itself is too small for a number', () => {
    expect(logOfAllBefore(1_000_000, 1440, 14_400)).toBeCloseTo(-1e6 * Math.log(11), 3);
    expect(logOfAllBefore(0, 1440, 14_400)).toBe(0);
  });

  it('comes to Poisson with a known rate where much is known of it (P(0) = e^-λ, with λ = 7 below 1 in 1000)', () => {
    // 7000 vends in 1000 days: one quiet day, with 7 to be expected.
    expect(logOfAllBefore(7000, 1_440_000, 1440)).toBeCloseTo(-7, 2);
  });
});

describe('judgeQuiet', () => {
  it('says that a machine has stopped which sold 20 a day, after one day of nothing', () => {
    expect(judgeQuiet(days(20, 20, 20, 0))).toEqual({
      since: '2026-10-04T00:00:00',
      until: '2026-10-05T00:00:00',
      minutes: 1440,
      soldBefore: 60,
      minutesBefore: 3 * 1440,
      logProbability: -60 * Math.log1p(1 / 3),
    });
  });

  it('joins quiet stretches at the end', () => {
    expect(judgeQuiet(days(3, 3, 3, 3, 3, 3))).toBeNull();
    expect(judgeQuiet(days(3, 3, 3, 3, 3, 3, 0))).toBeNull();
    expect(judgeQuiet(days(3, 3, 3, 3, 3, 3, 0, 0, 0))).toMatchObject({ minutes: 3 * 1440, soldBefore: 18 });
  });

  it('does not take a rate of few vends for a known one', () => {
    // A known rate of two a day would make four days of nothing rare: e^-8. Of two vends nobody knows the rate.
    expect(judgeQuiet(days(2, 0, 0, 0, 0))).toBeNull();
  });

  it('says nothing of a machine that never sold, of which nothing is known, or which sold last', () => {
    expect(judgeQuiet([])).toBeNull();
    expect(judgeQuiet(days(0, 0, 0))).toBeNull();
    expect(judgeQuiet(days(50, 50, 1))).toBeNull();
    expect(judgeQuiet(days(50, 50, null))).toBeNull();
  });

  it('leaves out of the rate what is not known or only at least', () => {
    const known = days(20, null, 20, 0);
    expect(judgeQuiet(known)).toMatchObject({ soldBefore: 40, minutesBefore: 2 * 1440 });
    const restarted = [...days(20), stretch(1440, 2880, { sold: 500, floor: true }), stretch(2880, 4320)];
    expect(judgeQuiet(restarted)).toMatchObject({ soldBefore: 20, minutesBefore: 1440 });
  });

  it('says nothing of a weekend that is quiet every week', () => {
    // The first of October 2026 is a Thursday; sold on working days only.
    const weeks = days(30, 30, 0, 0, 30, 30, 30, 30, 30, 0, 0);
    expect(judgeQuiet(weeks)).toBeNull();
    expect(judgeQuiet(weeks.slice(0, 4))).not.toBeNull();
    expect(judgeQuiet([...weeks, stretch(11 * 1440, 12 * 1440)])).toMatchObject({ minutes: 3 * 1440 });
  });

  it('is the rule in whole numbers, wherever no week is like it', () => {
    fc.assert(
      fc.property(arbitrarySales, fc.integer({ min: 1, max: 4000 }), (sales, minutes) => {
        // Every stretch sells something, so none is quiet but the last.
        const selling = sales.map((each) => ({ ...each, sold: each.sold + 1 }));
        const { stretches, end } = chain(selling, 100);
        const sold = selling.reduce((sum, each) => sum + each.sold, 0);
        const quiet = judgeQuiet([...stretches, stretch(end, end + minutes)]);
        expect(quiet !== null).toBe(isBelow(sold, end, minutes));
      }),
    );
  });
});
