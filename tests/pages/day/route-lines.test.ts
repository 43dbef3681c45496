import { describe, expect, it } from 'vitest';
import { compareNames, lineUpRoutes } from '../../../src/pages/day/route-lines.js';
import { machineLine } from '../support/day-given.js';

const settlement = {
  page: 'settlement-r9.html',
  route: 'R9',
  overShort: 0,
  settledVisits: 1,
  openVisits: 0,
  currency: 'EUR',
  decimals: 2,
  closedBy: null,
  isChangedSince: false,
};

describe('the routes of a day', () => {
  it('count machines, add up sales by currency, and say how many are in no sum', () => {
    const machines = [
      machineLine({ machine: 'A', sold: 2, value: 300 }),
      machineLine({ machine: 'B', sold: 1, value: 100, isFloor: true }),
      machineLine({ machine: 'C', sold: null, value: null }),
      machineLine({ machine: 'D', currency: 'JPY', decimals: 0, sold: null, value: null, reads: 0 }),
      machineLine({ machine: 'E', isExpected: false, intervals: 0 }),
    ];
    const [route] = lineUpRoutes(
      machines,
      [],
      new Map([
        ['A', 2],
        ['C', 1],
        ['elsewhere', 9],
      ]),
    );
    expect(route).toMatchObject({ route: 'R7', expected: 4, read: 3, toLookAt: 3, settlements: [] });
    expect(route!.sums).toEqual([
      { currency: 'EUR', decimals: 2, sold: 3, value: 400, isFloor: true, unknown: 1 },
      { currency: 'JPY', decimals: 0, sold: null, value: null, isFloor: false, unknown: 1 },
    ]);
  });

  it('are there too where only a settlement names them, by name, no route last', () => {
    const machines = [null, 'R10', 'R2'].map((route) => machineLine({ route }));
    const routes = lineUpRoutes(machines, [settlement], new Map());
    expect(routes.map(({ route }) => route)).toEqual(['R2', 'R9', 'R10', null]);
    expect(routes[1]).toMatchObject({ expected: 0, settlements: [settlement] });
  });
});

describe('the order of names', () => {
  it('takes numbers by their size, and tells names that sort alike', () => {
    expect(['b', 'V10', null, 'V9', 'v9', null].toSorted(compareNames)).toEqual(['b', 'v9', 'V9', 'V10', null, null]);
    expect(compareNames('a\u0301', '\u00e1')).not.toBe(0);
    expect(compareNames('\u00e1', 'a\u0301')).not.toBe(0);
    expect(compareNames('a', 'a')).toBe(0);
  });
});
