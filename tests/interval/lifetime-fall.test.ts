import { describe, expect, it } from 'vitest';
import { fellTogether, isRise, measureFall } from '../../src/interval/lifetime-fall.js';
import { type PairOptions, readOf } from '../support/interval-cases.js';

const measure = (from: readonly string[], to: readonly string[], options: PairOptions = {}) =>
  measureFall(readOf('from', from, options), readOf('to', to, options));

describe('measureFall', () => {
  it('holds totals and columns of both reads against each other', () => {
    const fall = measure(
      ['VA1*5000*50', 'CA8**0', 'PA1*11', 'PA2*30*3000', 'PA1*12', 'PA2*20*2000', 'PA1*13', 'PA2*1*1'],
      ['VA1*5100*49', 'CA8**5', 'PA1*11', 'PA2*31*3100', 'PA1*12', 'PA2*1*1900'],
    );
    expect(fall).toEqual({ compared: 6, down: 3, rolledOver: 0, nearZero: 1, gone: 2 });
  });

  it('tells counters that ran past their last digit', () => {
    expect(measure(['VA1*9990*50'], ['VA1*10*51'])).toMatchObject({ down: 1, rolledOver: 1, nearZero: 1 });
    const profile = { name: 'p', rollOverDigits: 2 + 1 };
    expect(measure(['VA1*990*50'], ['VA1*10*51'], { profile })).toMatchObject({ down: 1, rolledOver: 1 });
  });

  it('leaves amounts out where the money changed', () => {
    const fall = measure(
      ['ID4*2*978*EUR', 'VA1*500000*50', 'PA1*11', 'PA2*30*300000'],
      ['ID4*0*978*EUR', 'VA1*5100*51', 'PA1*11', 'PA2*31*3100'],
    );
    expect(fall).toMatchObject({ compared: 2, down: 0 });
  });
});

describe('fellTogether', () => {
  const fall = { compared: 10, down: 6, rolledOver: 0, nearZero: 6, gone: 0 };
  it('is so when most counters are back near zero', () => {
    expect(fellTogether(fall)).toBe(true);
    expect(fellTogether({ ...fall, nearZero: 5 })).toBe(false);
    expect(fellTogether({ ...fall, compared: 1, down: 1, nearZero: 1 })).toBe(false);
  });

  it('is not so where each of them ran past its last digit', () => {
    const [from, to] = [
      ['VA1*99900*9990', 'PA1*1', 'PA2*9990*99900'],
      ['VA1*50*5', 'PA1*1', 'PA2*5*50'],
    ];
    expect(fellTogether(measure(from, to))).toBe(false);
    expect(fellTogether(measure([...from, 'CA3*****7000'], [...to, 'CA3*****9']))).toBe(true);
  });
});

describe('isRise', () => {
  it('is so where nothing went down but by running past its last digit', () => {
    expect(isRise({ compared: 3, down: 0, rolledOver: 0, nearZero: 0, gone: 2 })).toBe(true);
    expect(isRise({ compared: 3, down: 1, rolledOver: 1, nearZero: 1, gone: 0 })).toBe(true);
    expect(isRise({ compared: 3, down: 2, rolledOver: 1, nearZero: 1, gone: 0 })).toBe(false);
  });
});
