import { describe, expect, it } from 'vitest';
import { M1, makeCount, type Scenario, visitsOf } from './scenario.js';

const service = { reason: 'service' } as const;
const SCENARIO: Scenario = {
  captures: {
    'in/a.dex': { at: '2026-11-20T10:00', ...service },
    'in/b.dex': { at: '2026-11-24T10:02', box: 5000, bills: 2000, sold: 70, ...service },
  },
  counts: [makeCount('M1', '2026-11-24T10:00', { bag: 'B1', coins: 4900, bills: 2000, row: 4 })],
};
const only = (change: Partial<Scenario> = {}) => visitsOf({ ...SCENARIO, ...change }).at(-1)!;

describe('buildVisit', () => {
  it('says whose visit it was, how it was matched, what it is counted from, and all figures', () => {
    expect(only()).toMatchObject({
      machine: 'M1',
      location: 'Foyer',
      driver: 'Kim',
      drivers: ['Kim'],
      route: 'R1',
      visitedAt: '2026-11-24T10:00:00',
      bag: 'B1',
      matchedBy: 'time',
      capture: 'in/b.dex',
      since: 'in/a.dex',
      sinceTime: '2026-11-20T10:00:00',
      currency: 'EUR',
      decimals: 2,
      expected: { coins: 5000, bills: 2000 },
      expectedIsFloor: false,
      counted: { coins: 4900, bills: 2000 },
      overShort: { coins: -100, bills: 0, total: -100 },
      state: 'short',
      jointBags: [],
      joinedCounts: [],
      isOtherMoney: false,
      sales: { sold: 70, value: 7000, cardSales: 0 },
    });
    expect(only().expectedLines).toHaveLength(4);
    expect(only().expectedFrom).toHaveLength(1);
  });

  it("goes by the sheet's driver and route before the roster's", () => {
    const counts = [{ ...SCENARIO.counts[0]!, driver: 'Lou', route: 'R9' }];
    expect(only({ counts })).toMatchObject({ driver: 'Lou', route: 'R9', drivers: ['Lou'] });
  });

  it('knows nothing that nothing says, and makes no 0 of it', () => {
    const captures = { 'b.dex': { at: '2026-11-24T10:00', box: 5000, money: null } };
    const counts = [makeCount('A1', '2026-11-24', { coins: 4900 })];
    expect(only({ captures, counts, machines: [] })).toMatchObject({
      location: null,
      driver: null,
      drivers: [],
      route: null,
      visitedAt: '2026-11-24',
      bag: null,
      since: null,
      sinceTime: null,
      currency: null,
      decimals: null,
      expected: { coins: null, bills: null },
      expectedLines: [],
      counted: { coins: 4900, bills: null },
      overShort: { coins: null, bills: null, total: null },
      interval: null,
    });
  });

  it('gives a service read without a bag the time of the read, and no counted money', () => {
    const [visit] = visitsOf({ ...SCENARIO, counts: [makeCount('M2', '2026-11-24')] }).filter(
      ({ machine }) => machine === 'M1',
    );
    expect(visit).toMatchObject({
      visitedAt: '2026-11-24T10:02:00',
      bag: null,
      matchedBy: null,
      counted: { coins: null, bills: null },
      expected: { coins: 5000, bills: 2000 },
      counts: [],
    });
  });

  it('counts no bag of a visit that several rows claim: they may be one bag counted twice', () => {
    const again = { ...SCENARIO.counts[0]!, coins: 5000, place: { file: 'counts.csv', row: 5 } };
    expect(only({ counts: [SCENARIO.counts[0]!, again] })).toMatchObject({
      bag: 'B1',
      counted: { coins: null, bills: null },
      overShort: { total: null },
    });
    expect(only({ counts: [SCENARIO.counts[0]!, { ...again, bag: 'B2' }] }).bag).toBeNull();
  });

  it('names all bags of a joint one, and the one of its own', () => {
    const early = makeCount('M1', '2026-11-22T09:00', { bag: 'B0', coins: 100, bills: 0 });
    expect(only({ counts: [early, SCENARIO.counts[0]!] })).toMatchObject({
      bag: 'B1',
      jointBags: ['bag B0', 'bag B1'],
      counted: { coins: 5000, bills: 2000 },
      joinedCounts: [early],
      state: 'agreed',
    });
  });

  it('knows the sales of no visit without a capture of its own: they are told on the later one', () => {
    const counts = [makeCount('M1', '2026-11-22T09:00', { coins: 100 })];
    const captures = {
      ...SCENARIO.captures,
      'x.dex': { at: '2026-11-21T22:00', box: 300, sold: 3, reason: 'scheduled' as const },
    };
    const visit = visitsOf({ ...SCENARIO, captures, counts }).find(({ state }) => state === 'unread')!;
    expect(visit).toMatchObject({ expected: { coins: 300, bills: 0 }, expectedIsFloor: true, sales: { sold: null } });
    expect(visit.interval?.totals.sold).toBe(3);
  });

  it("counts no money that is not the machine's", () => {
    expect(only({ machines: [{ ...M1, currency: 'USD' }] })).toMatchObject({
      isOtherMoney: true,
      currency: 'EUR',
      counted: { coins: null, bills: null },
      state: 'unsettled',
    });
  });

  it('takes the currency of the read before for a bag without a capture, else that of the roster', () => {
    const counts = [makeCount('M1', '2026-11-22T09:00', { coins: 100 })];
    const jpy = { machines: [{ ...M1, currency: 'JPY' }], counts };
    expect(only({ ...jpy, captures: {} })).toMatchObject({ currency: 'JPY', decimals: 0 });
    expect(
      only({ counts, captures: { 'z.dex': { at: '2026-11-23T10:00', money: '3*414*KWD', reason: 'scheduled' } } }),
    ).toMatchObject({
      currency: 'KWD',
      decimals: 3,
    });
  });
});
