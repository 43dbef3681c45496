import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  beforeQuiet,
  countQuiet,
  minutesOf,
  ofColumn,
  outlineInterval,
  overMinutes,
  usualRate,
} from '../../src/attention/sales-history.js';
import { buildInterval } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { takeSegments } from '../support/taken.js';
import { arbitrarySales, chain, days, pastColumn, stretch } from './stretches.js';

const value = ({ value: taken }: { value: number | null }) => taken;

describe('outlineInterval', () => {
  const read = (clock: string, vends: number) =>
    takeSegments(['ID1*S1*M****A1', 'ID4*2*978*EUR', `ID5*${clock}`, 'PA1*11*150', `PA2*${vends}*${vends * 150}`]);
  const outline = (from: string, to: string) =>
    outlineInterval(buildInterval(read(from, 10), read(to, 14), new Roster()));

  it('keeps times, money and sales, and lets the reads go', () => {
    expect(outline('261120*0800', '261121*0800')).toEqual({
      from: '2026-11-20T08:00:00',
      to: '2026-11-21T08:00:00',
      currency: 'EUR',
      decimals: 2,
      sold: 4,
      value: 600,
      cashSales: null,
      cardSales: 0,
      bills: null,
      floor: false,
      columns: [{ column: '11', sold: 4, value: 600, loss: null, offBy: null }],
    });
  });

  it('is nothing where time does not run forward, since nothing can be said a day', () => {
    expect(outline('261121*0800', '261121*0800')).toBeNull();
    expect(outline('', '261121*0800')).toBeNull();
    expect(outline('261121*0800', '')).toBeNull();
  });
});

describe('usualRate', () => {
  it('is sum over sum', () => {
    expect(usualRate(days(10, 20, 0), value)).toEqual({ amount: 3000, minutes: 3 * 1440 });
    expect(overMinutes(usualRate(days(10, 20, 0), value), 1440)).toBe(1000);
  });

  it('leaves out what is not known, and what is only at least', () => {
    const known = days(10, null, 30);
    expect(usualRate([...known, stretch(4320, 5760, { value: 1, floor: true })], value)).toEqual({
      amount: 4000,
      minutes: 2 * 1440,
    });
  });

  it('is not known from less than a day, or from a sum that is not exact', () => {
    expect(usualRate([stretch(0, 1439, { value: 500 })], value)).toBeNull();
    expect(usualRate([], value)).toBeNull();
    const huge = Number.MAX_SAFE_INTEGER;
    expect(usualRate([stretch(0, 1440, { value: huge }), stretch(1440, 2880, { value: huge })], value)).toBeNull();
    expect(overMinutes(null, 5)).toBeNull();
  });

  it('gives back the sum over the time it was taken from', () => {
    fc.assert(
      fc.property(arbitrarySales, (sales) => {
        const { stretches, end } = chain(sales, 130);
        const rate = usualRate(stretches, value);
        expect(rate === null).toBe(end < 1440);
        if (rate !== null) expect(overMinutes(rate, end)).toBe(sales.reduce((sum, { sold }) => sum + sold * 130, 0));
      }),
    );
  });
});

describe('ofColumn', () => {
  it('picks a figure of one column, where it was there', () => {
    const one = stretch(0, 60, { columns: [pastColumn('11', { sold: 3 })] });
    expect(ofColumn('11', ({ sold }) => sold)(one)).toBe(3);
    expect(ofColumn('12', ({ sold }) => sold)(one)).toBeNull();
  });
});

describe('countQuiet', () => {
  it('counts what sold nothing at the end', () => {
    expect(countQuiet(days(3, 0, 5, 0, 0))).toBe(2);
    expect(countQuiet(days(3))).toBe(0);
    expect(countQuiet(days(0, 0))).toBe(2);
    expect(countQuiet(days(0, null, 0))).toBe(1);
    expect(countQuiet([...days(0), stretch(1440, 2880, { floor: true })])).toBe(0);
  });

  it('leaves the stretches before; all of them where it never sold', () => {
    expect(beforeQuiet(days(3, 0, 0))).toHaveLength(1);
    expect(beforeQuiet(days(0, 0))).toHaveLength(2);
  });
});

describe('minutesOf', () => {
  it('is one at least', () => {
    expect(minutesOf(stretch(0, 90))).toBe(90);
    expect(minutesOf({ ...stretch(0, 0), to: '2026-10-01T00:00:30' })).toBe(1);
  });
});
