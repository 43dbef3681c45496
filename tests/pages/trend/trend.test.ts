import { describe, expect, it } from 'vitest';
import type { PastStretch } from '../../../src/attention/index.js';
import { makeDay } from '../../../src/day/index.js';
import { makeSite } from '../../../src/pages/index.js';
import { gatherMachines } from '../../../src/pages/machine/index.js';
import { estimateWords, roundWords, waitWords } from '../../../src/pages/trend/estimate-words.js';
import { makeTrend, makeTrendPages, trendPageName } from '../../../src/pages/trend/index.js';
import { ratePerDay } from '../../../src/pages/trend/trend.js';
import { demoInputs } from '../../day/demo-day.js';
import { expectSoundPage, textOf } from '../support/look-at-page.js';

const inputs = demoInputs('2026-11-23');
const day = makeDay(inputs);
const given = gatherMachines({ inputs, day });
const site = () => makeSite({ day: inputs.day });
const of = (name: string) => given.find(({ machine }) => machine === name)!;

/** A day of a machine before all of its reads, in which each column sold so many. */
const stretch = (date: string, sold: number | null, columns: readonly string[], floor = false): PastStretch => ({
  ...{ from: `${date}T00:00:00`, to: `${date}T23:59:00`, currency: 'EUR', decimals: 2 },
  ...{ sold: sold === null ? null : sold * columns.length, value: null },
  ...{ cashSales: null, cardSales: null, bills: null, floor },
  columns: columns.map((column) => ({ column, sold, value: null, loss: null, offBy: null })),
});

describe('the trend of a machine', () => {
  it('counts what was sold from read to read, and sums it up by column', () => {
    const trend = makeTrend(of('V107'), inputs)!;
    const sold = trend.stretches.map((each) => each.sold!);
    expect(sold).toEqual([16, 22, 29, 17]);
    expect(trend.columns.reduce((sum, column) => sum + column.sold!, 0)).toBe(84);
    const { value, limits } = trend.perDay!;
    expect(limits.low).toBeLessThan(value);
    expect(limits.high!).toBeGreaterThan(value);
    // 84 vends in the 3 days 11 hours and 24 minutes from the first read to the last.
    expect(value).toBeCloseTo((84 * 1440) / (3 * 1440 + 11 * 60 + 24 + 45 / 60), 1);
  });

  it('takes the history before the reads in, and leaves what is not known or a floor out of rates', () => {
    const columns = makeTrend(of('V107'), inputs)!.columns.map(({ column }) => column);
    const past = new Map([
      [of('V107').key!, [stretch('2026-11-01', 5, columns), stretch('2026-11-02', null, columns)]],
    ]);
    const longer = makeTrend(of('V107'), { ...inputs, past })!;
    expect(longer.stretches.length).toBe(6);
    expect(longer.columns[0]!.sold).toBe(makeTrend(of('V107'), inputs)!.columns[0]!.sold! + 5);
    expect(ratePerDay(longer.stretches[1]!)).toBeNull();
    const floors = new Map([[of('V107').key!, [stretch('2026-11-01', 5, columns, true)]]]);
    expect(makeTrend(of('V107'), { ...inputs, past: floors })!.columns[0]!.sold).not.toBe(longer.columns[0]!.sold);
  });

  it('says nothing of when a column is empty where it is not known what it holds', () => {
    const trend = makeTrend({ ...of('V107'), refill: [] }, inputs)!;
    for (const { empty, why } of trend.columns) {
      expect(empty).toBeNull();
      expect(why).toBe('what it holds is not known');
    }
    expect(makeTrend({ ...of('V107'), key: null }, inputs)).toBeNull();
    expect(makeTrend({ ...of('V107'), key: 'machine nobody' }, inputs)).toBeNull();
  });

  it('says why, whatever the reason', () => {
    const [row] = of('V107').refill;
    const why = (changes: object): string | null =>
      makeTrend({ ...of('V107'), refill: [{ ...row!, ...changes }] }, inputs)!.columns[0]!.why;
    expect(why({ left: 0, soldOut: 'machine' })).toBe('sold out, says the machine');
    expect(why({ left: 0, soldOut: 'counters' })).toBe('sold out, by the counters');
    expect(why({ left: null, soldOut: null, par: null })).toMatch(/par is not known/);
    expect(why({ left: null, soldOut: null, flags: ['no-fill-known'] })).toBe('no fill is known to count from');
    expect(why({ left: null, soldOut: null, flags: [] })).toBe('what it holds is not known');
    expect(why({ left: 0, soldOut: null, flags: [] })).toBe('nothing should be left');
    expect(why({ left: 2_000_000, soldOut: null, flags: [] })).toBe('the counts are too large for this');
    expect(why({ column: 'new', left: 4, soldOut: null, flags: [] })).toBe('less than a day of its sales is known');
  });
});

describe('trend pages', () => {
  it('are one for each machine with a history, and sound', () => {
    const pages = [...makeTrendPages({ inputs, day }, site())];
    expect(pages.map(({ name }) => name)).toEqual(given.map(({ machine }) => trendPageName(site(), machine)));
    for (const { text } of pages) expectSoundPage(text);
    const words = textOf(pages.find(({ name }) => name.includes('v107'))!.text);
    expect(words).toContain(
      '4 stretches from read to read are known, from 2026-11-20 10:47:35 to 2026-11-23 22:12:20.',
    );
    expect(words).toContain('Days until empty');
  });
});

describe('words of estimates', () => {
  it('give no more digits than are known', () => {
    expect([0, 0.004, 0.05, 0.34, 3.21, 12.6, Number.POSITIVE_INFINITY].map(roundWords)).toEqual([
      ...['0.0', 'under 0.01', '0.05', '0.3', '3.2', '13', 'no end'],
    ]);
    expect(estimateWords({ value: 2, limits: { low: 1, high: null } })).toBe('2.0 (1.0 to no end)');
    expect(waitWords({ value: Number.POSITIVE_INFINITY, limits: { low: 4.2, high: null } })).toBe(
      'none sold so far; 4.2 or more',
    );
    expect(waitWords({ value: 2, limits: { low: 1, high: 3 } })).toBe('2.0 (1.0 to 3.0)');
  });
});
