import type { BookFactsJson } from '../../../src/report/shapes/closing.js';

/** Sums over one settled visit that come to an amount over or short. */
export const sumsOf = (total: number): BookFactsJson['asItStands'] => ({
  expected: { coins: 0, bills: 0 },
  counted: { coins: total, bills: 0 },
  overShort: { coins: total, bills: 0, total },
  cardSales: 0,
  sold: 0,
  value: 0,
  loss: null,
  settledVisits: 1,
  openVisits: 0,
  countedOpen: { coins: 0, bills: 0 },
});

/** What a book says of a settlement that was closed; with a machine, of one to which something came after that. */
export function closedRound(
  given: { readonly by?: string; readonly machine?: string; readonly driver?: string } = {},
): BookFactsJson {
  const { by = 'Kim Office', machine, driver = 'Robin Sample' } = given;
  const closing = { entry: 39, at: '2026-11-24T09:00:00.000Z', by, reason: null };
  const own = { driver, totals: sumsOf(-500), asClosed: sumsOf(-500), asItStands: sumsOf(-500), carried: [] };
  const plain: BookFactsJson = {
    closing,
    asClosed: sumsOf(-500),
    asItStands: sumsOf(-500),
    adjustments: [],
    pending: [],
    pendingAdjustment: null,
    inTheWay: [],
    drivers: [{ ...own, overShortWithCarried: -500 }],
  };
  if (machine === undefined) return plain;
  const place = { machine, visitedAt: '2026-11-23', driver };
  const changes: BookFactsJson['pending'] = [
    { ...place, bag: null, field: 'state', from: 'unread', to: 'agreed' },
    { ...place, bag: 'B1', field: 'counted.coins', from: 7920, to: 8120 },
    { machine: null, visitedAt: null, driver: null, bag: null, field: 'settledVisits', from: 1, to: 2 },
  ];
  const because = [
    { entry: 40, what: 'late.dex' },
    { entry: null, what: 'counts.csv row 3' },
  ];
  const parts = [{ driver, overShort: 200 }];
  return {
    ...plain,
    asClosed: sumsOf(-900),
    adjustments: [
      {
        entry: 41,
        at: '2026-11-25T06:00:00.000Z',
        by,
        because,
        overShort: 200,
        changes,
        byDriver: parts.map((part) => ({ ...part, carriedTo: null })),
      },
    ],
    pending: changes,
    pendingAdjustment: { because: [], overShort: 200, byDriver: parts },
    drivers: [
      {
        ...own,
        asClosed: sumsOf(-900),
        carried: [{ entry: 30, route: 'R7', day: '2026-11-22', overShort: -100 }],
        overShortWithCarried: -600,
      },
    ],
  };
}
