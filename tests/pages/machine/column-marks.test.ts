import { describe, expect, it } from 'vitest';
import type { RefillRow } from '../../../src/day/index.js';
import type { ColumnSales } from '../../../src/interval/index.js';
import { markColumn, remarkColumn } from '../../../src/pages/machine/column-marks.js';
import { intervalOf } from '../../support/interval-cases.js';

const interval = intervalOf(['PA1*11*150', 'PA2*10*1500'], ['PA1*11*150', 'PA2*12*1800']);
const plain = interval.columns[0]!;
const refill = (given: Partial<RefillRow>): RefillRow => ({
  machine: 'M1',
  location: null,
  route: null,
  column: '11',
  product: null,
  par: 12,
  capacity: null,
  since: null,
  until: null,
  basis: null,
  sold: null,
  test: null,
  free: null,
  left: null,
  toFill: null,
  soldOut: null,
  flags: [],
  ...given,
});
const marks = (given: Partial<ColumnSales>, stock: RefillRow | null = null): string[] =>
  markColumn({ column: { ...plain, ...given }, interval, refill: stock }).map(({ sign, word }) => `${sign} ${word}`);
const remarks = (given: Partial<ColumnSales>, stock: RefillRow | null = null): string[] =>
  remarkColumn({ column: { ...plain, ...given }, interval, refill: stock });

describe('marks of a column', () => {
  it('say nothing of an ordinary one', () => {
    expect(marks({})).toEqual([]);
    expect(remarks({})).toEqual([]);
  });

  it('say each thing in a word with a sign of its own', () => {
    expect(marks({ pricePlan: 160, priceTo: 150 })).toEqual(['≠ priced off plan']);
    expect(marks({ pricePlan: 150, loss: 20 })).toEqual(['≠ sold off plan']);
    expect(marks({}, refill({ soldOut: 'machine' }))).toEqual(['0 sold out']);
    expect(marks({}, refill({ soldOut: 'counters' }))).toEqual(['0 sold out by the counters']);
    expect(marks({ unexplained: -5 })).toEqual(['? unexplained −0.05']);
    expect(marks({ value: null })).toEqual(['? not all known']);
    expect(marks({ floor: true, inFrom: false })).toEqual(['≥ at least', '+ new']);
    expect(marks({ inTo: false })).toEqual(['− gone']);
  });

  it('are followed by what else there is to say', () => {
    expect(remarks({ loss: 20, priceFrom: 140 })).toEqual(['the price cost 0.20', 'price was 1.40']);
    expect(remarks({ loss: -20 })).toEqual(['customers paid 0.20 above plan']);
    expect(
      remarks({
        split: [
          { count: 1, price: 140 },
          { count: 2, price: 150 },
        ],
        discounts: 30,
        test: 1,
        free: 2,
        basis: 'interval',
      }),
    ).toEqual([
      '1 at 1.40, 2 at 1.50',
      'discounts 0.30',
      '1 test vend',
      '2 free vends',
      'by counters since the last reset',
    ]);
    expect(remarks({}, refill({ left: 4 }))).toEqual(['4 left of 12']);
    expect(remarks({}, refill({ left: 4, par: null, flags: ['floor'] }))).toEqual(['4 left, in doubt']);
    expect(remarks({}, refill({ left: 0, soldOut: 'machine' }))).toEqual([]);
  });
});
