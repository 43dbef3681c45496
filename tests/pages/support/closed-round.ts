import type { ClosingJson } from '../../../src/report/shapes/closing.js';

const sums = (coins: number) => ({
  expected: { coins: 0, bills: 0 },
  counted: { coins, bills: 0 },
  overShort: { coins, bills: 0, total: coins },
});

/** What a book says of a settlement that was closed; with a machine, of one to which something came after that. */
export function closedRound(given: { readonly by?: string; readonly machine?: string } = {}): ClosingJson {
  const { by = 'Kim Office', machine } = given;
  const closed = { entry: 39, recordedAt: '2026-11-24T09:00:00.000Z', by };
  if (machine === undefined) {
    return { closed, changes: null, adjustments: [], carried: [], withCarried: { coins: 0, bills: 0, total: 0 } };
  }
  const changes = {
    ...sums(200),
    visits: [
      { machine, visitedAt: '2026-11-23', bag: null, field: 'state' as const, from: 'unread', to: 'agreed', by: null },
      { machine, visitedAt: '2026-11-23', bag: 'B1', field: 'counted.coins' as const, from: 7920, to: 8120, by: 200 },
    ] as ClosingJson['adjustments'][number]['visits'],
    because: [
      { entry: 40, what: 'late.dex' },
      { entry: null, what: 'counts.csv row 3' },
    ],
  };
  return {
    closed,
    changes: { ...changes, because: [] },
    adjustments: [{ ...changes, entry: 41, recordedAt: '2026-11-25T06:00:00.000Z', by, carriedBy: null }],
    carried: [{ ...sums(-100), entry: 30, settlement: 20, day: '2026-11-22', currency: 'EUR', decimals: 2 }],
    withCarried: { coins: -600, bills: 0, total: -600 },
  };
}
