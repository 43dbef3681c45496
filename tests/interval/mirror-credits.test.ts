import { describe, expect, it } from 'vitest';
import { buildIntervals } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { readOf } from '../support/interval-cases.js';

/** Reads a day apart: what came in and what was sold since the one before, all of it in coins to the box. */
function tell(...days: readonly (readonly [cashIn: number, sold: number])[]): (readonly [string, string])[][] {
  let [cashIn, sold] = [90_000, 90_000];
  const reads = [[0, 0] as const, ...days].map(([inNow, soldNow], day) => {
    cashIn += inNow;
    sold += soldNow;
    const segments = [
      `ID5*2611${10 + day}*1000`,
      `VA1*${sold}*900`,
      `CA2*${sold}*900`,
      `CA3*****${cashIn}*${cashIn}*0*0`,
      'CA4***0*0',
      'CA8**0',
      'PA1*1*250',
      `PA2*900*${sold}`,
    ];
    return readOf('to', segments, { file: `${day}.dex` });
  });
  const { intervals } = buildIntervals(reads, new Roster());
  return intervals.map(({ findings }) =>
    findings
      .filter(({ code }) => code === 'credit-standing')
      .map(({ severity, message }) => [severity, message] as const),
  );
}

describe('mirrorCredits (domain rule: accepted only as far as the interval before or after mirrors it)', () => {
  it('takes what was lent before a read and comes back after it for a credit', () => {
    expect(tell([650, 500], [350, 500], [500, 500])).toEqual([
      [['note', "A customer's credit stood: 1.50 EUR at the later read; the interval beside it shows the same."]],
      [['note', "A customer's credit stood: 1.50 EUR at the earlier read; the interval beside it shows the same."]],
      [],
    ]);
  });

  it('only as far as it comes back: what stays is a doubt with its amount', () => {
    const [first, second] = tell([650, 500], [400, 500]);
    expect(first!.map(([severity, message]) => [severity, message.slice(0, 40)])).toEqual([
      ['note', "A customer's credit stood: 1.00 EUR at t"],
      ['doubt', '0.50 EUR of the cash in is in neither sa'],
    ]);
    expect(second).toMatchObject([['note', expect.any(String)]]);
  });

  it('asks the interval beside it alone: credit lapses soon, so none is carried past a read at which it grew', () => {
    const found = tell([600, 500], [550, 500], [350, 500]);
    expect(found.map((one) => one.map(([severity]) => severity))).toEqual([['doubt'], ['note'], ['note', 'doubt']]);
  });

  it('doubts every visit of a skim: cash in lowered by so much that it would pass for a credit', () => {
    for (const skim of [10, 50, 150, 220]) {
      const visits = tell([500 - skim, 500], [500 - skim, 500], [500 - skim, 500]);
      expect(visits.map((found) => found.map(([severity]) => severity))).toEqual([['doubt'], ['doubt'], ['doubt']]);
    }
    // Given back in the interval after, it is no credit either: that comes the other way round.
    expect(tell([350, 500], [650, 500]).map((found) => found.map(([severity]) => severity))).toEqual([
      ['doubt'],
      ['doubt'],
    ]);
  });
});
