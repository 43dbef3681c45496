import { describe, expect, it } from 'vitest';
import { COMPLETE, match, nights, paid, shown } from './match-rows.js';

// Issue 8, point 19, sentence by sentence. A processor pays whole days, states them or not, and does not always pay in order
// (common practice).
describe('deposits out of order', () => {
  const counters = nights([1000, 2000, 3000, 4000]);

  it('places a row by its stated day although it is dated later than the next day’s', () => {
    expect(
      shown({ counters, deposits: paid([2, 1000, 1, 1], [7, 2000, 2, 2], [4, 3000, 3, 3], [5, 4000, 4, 4]) }),
    ).toEqual(['1000 1000 matched 0', '2000 2000 matched 0', '3000 3000 matched 0', '4000 4000 matched 0']);
  });

  it('names the difference of such a row, and no other', () => {
    expect(
      shown({ counters, deposits: paid([2, 1000, 1, 1], [20, 1900, 2, 2], [4, 3000, 3, 3], [5, 4000, 4, 4]) }),
    ).toEqual(['1000 1000 matched 0', '2000 1900 differing -100', '3000 3000 matched 0', '4000 4000 matched 0']);
  });

  it('places stated rows first where others state nothing', () => {
    // The 2nd is stated and comes after everything else.
    expect(shown({ counters, deposits: paid([2, 1000], [4, 3000], [5, 4000], [9, 2000, 2, 2]) })).toEqual([
      '1000 1000 matched 0',
      '2000 2000 matched 0',
      '3000 3000 matched 0',
      '4000 4000 matched 0',
    ]);
  });

  it('does not hold the date of a row that came late against those that state nothing', () => {
    const weeks = nights([100, 0, 0, 0, 0, 0, 0, 700, 800]);
    expect(shown({ counters: weeks, deposits: paid([14, 100, 1, 1], [15, 700, 8, 8], [16, 800]) })).toEqual([
      '100 100 matched 0',
      '700 700 matched 0',
      '800 800 matched 0',
    ]);
  });

  it('matches rows of one date in any order', () => {
    const rows = paid([5, 3000], [5, 1000], [5, 2000], [5, 4000]);
    const matched = ['1000 1000 matched 0', '2000 2000 matched 0', '3000 3000 matched 0', '4000 4000 matched 0'];
    expect(shown({ counters, deposits: rows })).toEqual(matched);
    expect(shown({ counters, deposits: [...rows].reverse() })).toEqual(matched);
  });

  it('matches a row without stated days that came after its followers, while the window reaches back', () => {
    // Paid in another order, they are one sum from the first of them to the last.
    expect(shown({ counters, deposits: paid([3, 2000], [4, 3000], [4, 1000], [5, 4000]), options: COMPLETE })).toEqual([
      '3000 3000 matched 0',
      '3000 3000 matched 0',
      '4000 4000 matched 0',
    ]);
    expect(shown({ counters, deposits: paid([3, 2000], [4, 3000], [5, 4000], [6, 1000]) })).toEqual([
      '10000 10000 matched 0',
    ]);
  });
});

describe('deposits paid twice', () => {
  // 6.82 on the 3rd is paid twice; 34.24 on the 4th has not been paid yet: 6.82 - 34.24 = -27.42.
  const counters = nights([1250, 980, 682, 3424]);

  it('lets one of two equal rows match and calls the other extra: stated', () => {
    const deposits = paid([2, 1250, 1, 1], [3, 980, 2, 2], [4, 682, 3, 3], [4, 682, 3, 3]);
    expect(shown({ counters, deposits, options: { completeFrom: '2026-11-01' } })).toEqual([
      '1250 1250 matched 0',
      '980 980 matched 0',
      '- 682 extra 682',
      '682 682 matched 0',
      '3424 - open not-due -',
    ]);
  });

  it('lets one of two equal rows match and calls the other extra: not stated', () => {
    const deposits = paid([2, 1250], [3, 980], [4, 682], [4, 682]);
    expect(shown({ counters, deposits, options: { completeFrom: '2026-11-01' } })).toEqual([
      '1250 1250 matched 0',
      '980 980 matched 0',
      '682 682 matched 0',
      '- 682 extra 682',
      '3424 - open not-due -',
    ]);
  });

  it('says so whether the tail is due or not, and on whatever date the row was paid again', () => {
    const again = (day: number) => paid([2, 1250, 1, 1], [3, 980, 2, 2], [4, 682, 3, 3], [day, 682, 3, 3]);
    for (const day of [3, 4, 5, 12]) {
      const lines = shown({ counters, deposits: again(day), options: COMPLETE });
      expect(lines).toContain('- 682 extra 682');
      expect(lines).toContain('3424 - missing -3424');
    }
    // Not stated, and on another day, it may as well be a part of the tail: the difference of both is all that is known.
    expect(shown({ counters, deposits: paid([2, 1250], [3, 980], [4, 682], [5, 682]), options: COMPLETE })).toContain(
      '3424 682 differing edges >=-2742',
    );
  });

  it('says so of a whole week paid twice, by rows for parts of it too', () => {
    const week = nights([100, 200, 300, 400, 500, 600, 700]);
    expect(shown({ counters: week, deposits: paid([8, 2800, 1, 7], [9, 2800, 1, 7]) })).toEqual([
      '- 2800 extra 2800',
      '2800 2800 matched 0',
    ]);
    // One row a brand of card, one of them twice.
    const split = paid([8, 1000, 1, 7], [8, 1800, 1, 7], [8, 1000, 1, 7]);
    expect(shown({ counters: week, deposits: split })).toEqual(['- 1000 extra 1000', '2800 2800 matched 0']);
  });

  it('says so where reads are not taken when the processor ends its day', () => {
    const late = nights([1250, 980, 682, 3424, 1111], {}, '22:00');
    const deposits = paid([3, 1250, 2, 2], [4, 980, 3, 3], [5, 682, 4, 4], [5, 682, 4, 4], [7, 1111, 6, 6]);
    expect(shown({ counters: late, deposits, options: COMPLETE })).toEqual([
      '1250 1250 matched 0',
      '980 980 matched 0',
      '682 682 matched 0',
      '- 682 extra 682',
      '3424 - missing -3424',
      '1111 1111 matched 0',
    ]);
  });

  it('takes equal rows of equal days for what they are', () => {
    const equal = nights([500, 500, 700]);
    expect(shown({ counters: equal, deposits: paid([4, 500], [4, 500], [4, 700]) })).toEqual([
      '500 500 matched 0',
      '500 500 matched 0',
      '700 700 matched 0',
    ]);
  });
});

describe('ends that neighbours prove', () => {
  const late = (sales: readonly number[]) => nights(sales, {}, '22:00');

  it('misses a payment not made between two that match to the cent, without being told when the day ends', () => {
    const counters = late([2840, 3440, 3180]);
    const told = ['2840 2840 matched 0', '3440 - missing -3440', '3180 3180 matched 0'];
    expect(shown({ counters, deposits: paid([2, 2840], [4, 3180]), options: COMPLETE })).toEqual(told);
    expect(shown({ counters, deposits: paid([3, 2840, 2, 2], [5, 3180, 4, 4]), options: COMPLETE })).toEqual(told);
    // Named by the day that they begin on.
    expect(shown({ counters, deposits: paid([3, 2840, 1, 1], [5, 3180, 3, 3]), options: COMPLETE })).toEqual(told);
  });

  it('misses two in a row', () => {
    const counters = late([2840, 3440, 1110, 3180]);
    expect(shown({ counters, deposits: paid([2, 2840, 1, 1], [5, 3180, 4, 4]), options: COMPLETE })).toEqual([
      '2840 2840 matched 0',
      '4550 - missing -4550',
      '3180 3180 matched 0',
    ]);
  });

  it('says by how much a payment between two such differs, exactly', () => {
    const counters = late([2840, 3440, 3180]);
    expect(
      shown({ counters, deposits: paid([3, 2840, 2, 2], [4, 3400, 3, 3], [5, 3180, 4, 4]), options: COMPLETE }),
    ).toEqual(['2840 2840 matched 0', '3440 3400 differing -40', '3180 3180 matched 0']);
  });

  it('still claims nothing where the neighbours do not match', () => {
    const counters = late([2840, 3440, 3180]);
    const states = match({ counters, deposits: paid([3, 2839, 2, 2], [5, 3181, 4, 4]), options: COMPLETE }).matches;
    expect(states.some(({ state }) => state === 'missing')).toBe(false);
  });

  it('looks across days on which nothing was sold', () => {
    const counters = late([2840, 0, 3440, 0, 3180]);
    expect(shown({ counters, deposits: paid([3, 2840, 2, 2], [7, 3180, 6, 6]), options: COMPLETE })).toEqual([
      '2840 2840 matched 0',
      '3440 - missing -3440',
      '3180 3180 matched 0',
    ]);
  });
});

describe('a stated day for which nothing was paid', () => {
  it('is missing in a complete sheet at the end of the reads too', () => {
    const counters = nights([2840, 3440, 3180], {}, '22:00');
    expect(shown({ counters, deposits: paid([3, 2840, 2, 2], [4, 3440, 3, 3]), options: COMPLETE })).toEqual([
      '2840 2840 matched 0',
      '3440 3440 matched 0',
      '3180 - missing -3180',
    ]);
  });

  it('is missing where a row states the day and pays nothing for it', () => {
    const counters = nights([1000, 2000, 3000]);
    expect(shown({ counters, deposits: paid([2, 1000, 1, 1], [3, 0, 2, 2], [4, 3000, 3, 3]) })).toEqual([
      '1000 1000 matched 0',
      '- 0 matched 0',
      '2000 - missing -2000',
      '3000 3000 matched 0',
    ]);
  });

  it('is no claim of a row of fees alone', () => {
    const counters = nights([1000, 2000, 3000]);
    const fees = 'M1,,2026-11-04,0,4,-4,2026-11-01,2026-11-30';
    expect(shown({ counters, deposits: [...paid([2, 1000, 1, 1]), fees] })).toContain('5000 - open not-due -');
  });
});
