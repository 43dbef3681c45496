import { describe, expect, it } from 'vitest';
import { ReadPair } from '../../src/interval/read-pair.js';
import { pairOf, readOf } from '../support/interval-cases.js';

describe('ReadPair', () => {
  it('needs two reads', () => {
    const taken = readOf('from', []);
    expect(() => new ReadPair(taken, taken)).toThrow(RangeError);
  });

  it('tells what a counter of the whole machine moved by', () => {
    const pair = pairOf(['VA1*1000*10*500*5'], ['VA1*1300*13*300*3']);
    expect(pair.difference('VA101', 'VA103')).toMatchObject({ value: 300, basis: 'lifetime', column: null });
    expect(pair.difference('CA201', null)).toMatchObject({ value: null, why: 'absent' });
    expect([pair.reset, pair.isRestarted, pair.keepsLifetime]).toEqual(['cleared', false, true]);
  });

  it('tells what the counter of a column moved by', () => {
    const pair = pairOf(
      ['PA1*11', 'PA2*10*1000', 'PA1*13', 'PA2*1*1'],
      ['PA1*11', 'PA2*13*1300', 'PA1*12', 'PA2*2*200'],
    );
    expect(pair.columnDifference('11', 'PA201', 'PA203')).toMatchObject({ value: 3, column: '11' });
    expect(pair.columnDifference('12', 'PA201', 'PA203')).toMatchObject({ value: 2, column: '12' });
    expect(pair.columnDifference('13', 'PA201', 'PA203')).toMatchObject({ value: null, why: 'absent-now' });
  });

  it('reads absent segments of a column as the columns beside it show', () => {
    const pair = pairOf(['PA1*11', 'PA2*10*1000', 'PA1*12'], ['PA1*11', 'PA2*13*1300', 'PA1*12']);
    expect(pair.columnDifference('12', 'PA201', 'PA203')).toMatchObject({ value: 0 });
    expect(pair.columnDifference('12', 'PA301', 'PA303')).toMatchObject({ value: null, why: 'absent' });
    expect(pair.columnDifference('99', 'PA201', 'PA203')).toMatchObject({ value: null, why: 'absent' });
  });

  it('takes no roll-over for one where other counters went down', () => {
    const before = ['VA1*99990*500', 'CA2*70000*400', 'PA1*1', 'PA2*9*900'];
    const pair = pairOf(before, ['VA1*50*501', 'CA2*60000*401', 'PA1*1', 'PA2*10*1000']);
    expect(pair.difference('VA101', 'VA103')).toMatchObject({ value: null, why: 'backward' });
    const fine = pairOf(before, ['VA1*50*501', 'CA2*70060*401', 'PA1*1', 'PA2*10*1000']);
    expect(fine.difference('VA101', 'VA103')).toMatchObject({ value: 60, modulus: 100_000 });
  });

  it('knows nothing of resets across a restart', () => {
    const pair = pairOf(['VA1*500000*5000*700*7'], ['VA1*300*3*300*3', 'CB1*B2']);
    expect([pair.reset, pair.isRestarted]).toEqual(['not-known', true]);
    const goesOn = pairOf(['VA1*500000*5000*700*7'], ['VA1*500300*5003*300*3', 'CB1*B2']);
    expect([goesOn.reset, goesOn.isRestarted]).toEqual(['cleared', false]);
  });

  it('speaks of the money of both reads', () => {
    expect(pairOf([], []).money(1250)).toBe('12.50 EUR');
    expect(pairOf([], ['ID4']).money(1250)).toBe('12.50 EUR');
    expect(pairOf(['ID4'], []).currency).toBe('EUR');
    const changed = pairOf([], ['ID4*0*392*JPY']);
    expect([changed.isSameMoney, changed.money(1250)]).toEqual([false, '1250 JPY']);
    const decimals = pairOf(['ID4*2*978*EUR'], ['ID4*0']);
    expect([decimals.isSameMoney, decimals.currency, decimals.decimals]).toEqual([false, null, 0]);
    const currency = pairOf(['ID4*2*978*EUR'], ['ID4**756*CHF']);
    expect([currency.isSameMoney, currency.currency, currency.decimals]).toEqual([false, 'CHF', null]);
  });
});

describe('ReadPair: reads in the wrong order', () => {
  const more = ['VA1*1300*13', 'PA1*1', 'PA2*13*1300'];
  const less = ['VA1*1000*10', 'PA1*1', 'PA2*10*1000'];

  it('is seen by lower counters with an earlier clock or fewer reads', () => {
    expect(pairOf([...more, 'ID5*261122*1000'], less).isReversed).toBe(true);
    expect(pairOf([...more, 'EA3*********9'], [...less, 'EA3*********8']).isReversed).toBe(true);
    expect(pairOf([...more, 'EA3*9'], [...less, 'EA3*8']).isReversed).toBe(true);
  });

  it('is not claimed without either, where counters rise, or where they fall both ways', () => {
    expect(pairOf(more, less).isReversed).toBe(false);
    expect(pairOf([...more, 'ID5', 'EA3*9'], [...less, 'EA3']).isReversed).toBe(false);
    expect(pairOf([...less, 'ID5*261122*1000'], more).isReversed).toBe(false);
    expect(pairOf([...more, 'CA8**5', 'ID5*261122*1000'], [...less, 'CA8**9']).isReversed).toBe(false);
    expect(pairOf([...more, 'ID5*261122*1000'], [...less, 'CB1*B2']).isReversed).toBe(false);
  });
});
