import { describe, expect, it } from 'vitest';
import { intervalOf } from '../support/interval-cases.js';

type Counter = readonly [count: number, price: number];

/** A read of columns in the order of their numbers; the counters of the machine are the sums of what stands behind them. */
function read(columns: Readonly<Record<string, Counter>>, { total = true } = {}): string[] {
  const counters = Object.values(columns);
  const count = counters.reduce((sum, [sold]) => sum + sold, 0);
  const value = counters.reduce((sum, [sold, price]) => sum + sold * price, 0);
  return [
    ...(total ? [`VA1*${value}*${count}`] : []),
    ...Object.entries(columns).flatMap(([id, [sold, price]]) => [`PA1*${id}*${price}`, `PA2*${sold}*${sold * price}`]),
  ];
}

const soldOf = (interval: ReturnType<typeof intervalOf>): unknown[] =>
  interval.columns.map(({ column, sold, value }) => [column, sold, value]);

// From memory: a controller can be set to number its selections otherwise, and their counters stay as they are.
describe('columns that changed their numbers', () => {
  const BEFORE = { '11': [100, 100], '12': [300, 100], '13': [50, 150] } as const;

  it('tell nothing that the machine did not sell, and say why', () => {
    // 4 and 6 were sold of the two, 3 of the third.
    const interval = intervalOf(read(BEFORE), read({ '11': [306, 100], '12': [104, 100], '13': [53, 150] }));
    expect(soldOf(interval)).toEqual([
      ['11', null, null],
      ['12', null, null],
      ['13', 3, 450],
    ]);
    expect(interval.totals).toMatchObject({ sold: 13, value: 1450 });
    const [message] = interval.findings.filter(({ code }) => code === 'cross-total').map((finding) => finding.message);
    expect(message).toBe(
      'PA201, paid vends, number, since initialisation (column 11): it rose, from 100 to 306, and another went down: columns may have changed numbers. Its figure is left out.',
    );
    expect(interval.findings.filter(({ code }) => code === 'counter-backward')).toHaveLength(2);
  });

  it('leave out each of several', () => {
    const before = { '11': [100, 100], '12': [300, 100], '13': [500, 100], '14': [20, 100] } as const;
    const after = { '11': [302, 100], '12': [503, 100], '13': [104, 100], '14': [21, 100] } as const;
    expect(soldOf(intervalOf(read(before), read(after)))).toEqual([
      ['11', null, null],
      ['12', null, null],
      ['13', null, null],
      ['14', 1, 100],
    ]);
  });

  it('leave out all that may be it where little fell', () => {
    const interval = intervalOf(
      read({ '11': [100, 100], '12': [103, 100], '13': [50, 100], '14': [10, 100] }),
      read({ '11': [104, 100], '12': [101, 100], '13': [59, 100], '14': [11, 100] }),
    );
    expect(interval.columns.map(({ sold }) => sold)).toEqual([null, null, null, null]);
  });

  it('are not suspected where a counter went down and the others agree with the machine', () => {
    const before = [...read(BEFORE, { total: false }), 'VA1*47500*450'];
    const after = [...read({ '11': [104, 100], '12': [290, 100], '13': [53, 150] }, { total: false }), 'VA1*48500*460'];
    const interval = intervalOf(before, after);
    expect(soldOf(interval)).toEqual([
      ['11', 4, 400],
      ['12', null, null],
      ['13', 3, 450],
    ]);
    expect(interval.findings.filter(({ message }) => message.includes('numbers'))).toEqual([]);
  });

  it('are not suspected where nothing went down, or no total tells', () => {
    const more = read({ '11': [106, 100], '12': [304, 100], '13': [53, 150] }, { total: false });
    expect(soldOf(intervalOf([...read(BEFORE, { total: false }), 'VA1*1*1'], [...more, 'VA1*2*2']))).toEqual([
      ['11', 6, 600],
      ['12', 4, 400],
      ['13', 3, 450],
    ]);
    const swapped = read({ '11': [306, 100], '12': [104, 100], '13': [53, 150] }, { total: false });
    expect(soldOf(intervalOf(read(BEFORE, { total: false }), swapped))[0]).toEqual(['11', 206, 20_600]);
  });
});
