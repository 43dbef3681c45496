import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { settleRound } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { M1, makeCount, makeMachine, type Scenario, type Shown, settle, visitsOf } from './scenario.js';

const service = { reason: 'service' } as const;
const at = (when: string, box: number, more: Partial<Shown> = {}): Shown => ({
  at: `2026-11-${when}`,
  box,
  ...service,
  ...more,
});
const bag = (when: string, coins: number, more = {}) =>
  makeCount('M1', `2026-11-${when}`, { coins, bills: 0, ...more });

/** Three visits of one machine, with the two bags that can be settled. */
const WEEK: Scenario = {
  captures: { mon: at('16T10:00', 0), wed: at('18T10:00', 300), fri: at('20T10:00', 800) },
  counts: [bag('18T10:00', 300, { bag: 'B3', row: 3 }), bag('20T10:00', 500, { bag: 'B5', row: 5 })],
};

describe('settleRound', () => {
  it('makes one settlement a route and day', () => {
    expect(settle(WEEK).settlements.map(({ day, route, totals }) => [day, route, totals.overShort.total])).toEqual([
      ['2026-11-18', 'R1', 0],
      ['2026-11-20', 'R1', 0],
    ]);
  });

  it('makes nothing of nothing', () => {
    expect(settleRound({ reads: [], counts: [], roster: new Roster() })).toEqual({ settlements: [], findings: [] });
  });

  it('hands on what is said of reads that belong to no visit', () => {
    const captures = { ...WEEK.captures, 'wed-again': at('18T10:00', 300) };
    expect(settle({ ...WEEK, captures }).findings.map(({ code }) => code)).toEqual(['duplicate-read']);
  });

  it('settles one day alone by an option, or one route', () => {
    expect(settle(WEEK, { day: '2026-11-20' }).settlements.map(({ day }) => day)).toEqual(['2026-11-20']);
    expect(settle(WEEK, { route: 'R1' }).settlements).toHaveLength(2);
    expect(settle(WEEK, { route: 'R9' }).settlements).toEqual([]);
    const elsewhere = [WEEK.counts[0]!, { ...WEEK.counts[1]!, route: 'R9' }];
    expect(settle({ ...WEEK, counts: elsewhere }, { route: 'R9' }).settlements.map(({ day }) => day)).toEqual([
      '2026-11-20',
    ]);
  });

  it('settles a day whose visit takes an earlier bag in that lies on another day', () => {
    const { wed: _, ...captures } = WEEK.captures;
    const [visit, ...others] = visitsOf({ ...WEEK, captures }, { day: '2026-11-20' });
    expect(others).toEqual([]);
    expect(visit).toMatchObject({
      state: 'agreed',
      counted: { coins: 800, bills: 0 },
      jointBags: ['bag B3', 'bag B5'],
    });
  });

  it('leaves a bag open on its day only as long as it is settled nowhere', () => {
    const { wed: _, ...captures } = WEEK.captures;
    const both = settle({ ...WEEK, captures }).settlements.map(({ totals }) => [
      totals.openVisits,
      totals.countedOpen.coins,
    ]);
    expect(both).toEqual([
      [0, 0],
      [0, 0],
    ]);
    const alone = settle({ ...WEEK, captures }, { day: '2026-11-18' }).settlements;
    expect(alone.map(({ totals }) => [totals.openVisits, totals.countedOpen.coins])).toEqual([[1, 300]]);
  });

  it('takes a visit at midnight for that of the day the sheet gives', () => {
    const captures = { a: at('16T10:00', 0), b: at('17T23:58', 300) };
    const [visit] = visitsOf({ ...WEEK, captures, counts: [bag('18T00:00', 300)] }, { day: '2026-11-18' });
    expect(visit).toMatchObject({ state: 'agreed', matchedBy: 'time', visitedAt: '2026-11-18T00:00:00' });
  });

  it('claims service reads as uncounted on the days of the sheet, or the day asked for', () => {
    const counts = [WEEK.counts[1]!];
    expect(visitsOf({ ...WEEK, counts }).map(({ state }) => state)).toEqual(['agreed']);
    expect(visitsOf({ ...WEEK, counts }, { day: '2026-11-18' }).map(({ state }) => state)).toEqual(['uncounted']);
    const wide = [makeCount('M2', '2026-11-17'), makeCount('M2', '2026-11-21')];
    const found = visitsOf({ ...WEEK, counts: [...counts, ...wide] }).filter(({ machine }) => machine === 'M1');
    expect(found.map(({ state }) => state)).toEqual(['uncounted', 'agreed']);
  });

  it('takes the first service read of all for the start, not for a visit that was not counted', () => {
    expect(visitsOf(WEEK, { day: '2026-11-16' })).toEqual([]);
  });

  it('claims no scheduled or unexplained read as uncounted: they give sales and no collection', () => {
    for (const more of [{ reason: 'scheduled' } as const, { reason: 'on demand' } as const]) {
      const captures = { ...WEEK.captures, thu: { ...at('19T22:00', 400), ...more } };
      expect(visitsOf({ ...WEEK, captures }, { day: '2026-11-19' })).toEqual([]);
    }
    const { reason: _, ...unsaid } = at('19T22:00', 400);
    expect(visitsOf({ ...WEEK, captures: { ...WEEK.captures, thu: unsaid } }, { day: '2026-11-19' })).toEqual([]);
  });

  it('never claims a machine to be uncounted whose row was refused', () => {
    const countFindings = [makeFinding('ambiguous-date', '', { file: 'counts.csv', row: 9, machine: 'M1' })];
    expect(visitsOf({ ...WEEK, counts: [], countFindings }, { day: '2026-11-18' }).map(({ state }) => state)).toEqual([
      'unsettled',
    ]);
    const other = [makeFinding('ambiguous-date', '', { file: 'counts.csv', row: 9, machine: 'M2' })];
    const machines = [M1, makeMachine({ machine: 'M2' })];
    expect(visitsOf({ ...WEEK, counts: [], machines, countFindings: other }, { day: '2026-11-18' })[0]!.state).toBe(
      'uncounted',
    );
  });

  it('finds a machine without a roster by asset or serial number, and settles rows under both as one machine', () => {
    const counts = [
      { ...WEEK.counts[0]!, machine: 'S1' },
      { ...WEEK.counts[1]!, machine: 'A1' },
    ];
    const visits = visitsOf({ ...WEEK, counts, machines: [] });
    expect(visits.map(({ machine, state, since }) => [machine, state, since])).toEqual([
      ['A1', 'agreed', 'mon'],
      ['A1', 'agreed', 'wed'],
    ]);
    expect(visitsOf({ ...WEEK, counts: counts.toReversed(), machines: [] })).toEqual(visits);
  });

  it('counts a read once however often its capture came, whichever copy a row names', () => {
    const captures = {
      ...WEEK.captures,
      'fri-again': at('20T10:00', 800),
      'fri-damaged': at('20T10:00', 800, { damaged: true }),
    };
    for (const capture of ['fri', 'fri-again', 'fri-damaged']) {
      const counts = [WEEK.counts[0]!, { ...WEEK.counts[1]!, capture }];
      expect(visitsOf({ ...WEEK, captures, counts }).at(-1)).toMatchObject({
        state: 'agreed',
        matchedBy: 'bag',
        capture: 'fri',
      });
    }
  });

  it('allows the tolerance it is given', () => {
    const counts = [WEEK.counts[0]!, { ...WEEK.counts[1]!, coins: 497 }];
    const states = (tolerance: { amount: number; basisPoints: number }) =>
      visitsOf({ ...WEEK, counts }, { tolerance }).map(({ state }) => state);
    expect(states({ amount: 2, basisPoints: 0 })).toEqual(['agreed', 'short']);
    expect(states({ amount: 3, basisPoints: 0 })).toEqual(['agreed', 'agreed']);
    expect(states({ amount: 0, basisPoints: 60 })).toEqual(['agreed', 'agreed']);
  });

  it('looks as far as the window says', () => {
    const counts = [WEEK.counts[0]!, { ...WEEK.counts[1]!, visitedAt: { date: '2026-11-20', time: '10:30:00' } }];
    const matched = (windowMinutes: number) => visitsOf({ ...WEEK, counts }, { windowMinutes }).at(-1)!.matchedBy;
    expect([matched(30), matched(29)]).toEqual(['time', 'date']);
  });

  it('orders rows of one moment by sheet and row', () => {
    const twice = [bag('18T10:00', 1, { row: 9 }), bag('18T10:00', 2, { row: 3 })];
    const elsewhere = { ...twice[0]!, place: { file: 'a.csv', row: 12 } };
    const visit = visitsOf({ ...WEEK, counts: [...twice, elsewhere] }).find(({ counts }) => counts.length === 3)!;
    expect(visit.counts.map(({ place }) => `${place.file} ${place.row}`)).toEqual([
      'a.csv 12',
      'counts.csv 3',
      'counts.csv 9',
    ]);
    const later = { ...twice[0]!, place: { file: 'z.csv', row: 1 } };
    const other = visitsOf({ ...WEEK, counts: [later, ...twice] }).find(({ counts }) => counts.length === 3)!;
    expect(other.counts.at(-1)!.place.file).toBe('z.csv');
  });

  it('refuses options that make no sense, before anything is looked at', () => {
    expect(() => settle(WEEK, { windowMinutes: -1 })).toThrow(RangeError);
  });
});
