import { describe, expect, it } from 'vitest';
import type { Visit } from '../../../src/settlement/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { find } from './rule-scenario.js';

const COUNTS = 'machine,visited_at,bag,coins,bills\n';

/** Two service visits, ten vends at 2.00 in coins that all go to the box between them. */
function collect(counts: string, request = {}): DayScenario {
  const office = new DayScenario({ machines: ONE_MACHINE, counts: COUNTS + counts });
  const machine = startMachine({ tubes: [] });
  office.take(machine, { at: '2026-11-20T10:00:00', service: true }, { reason: 'service' });
  machine.collect();
  sell(machine, '11', 10, '2026-11-21T10:00:00');
  office.take(machine, { service: true, ...request }, { reason: 'service' });
  machine.collect();
  return office;
}

describe('bags with more or less in them than expected', () => {
  it('have the difference at stake, and the caution that it proves nothing', () => {
    const item = find(collect('M1,2026-11-21 10:00,B1,15.00,0\n').make('2026-11-21'), 'bag-differs');
    expect(item).toMatchObject({
      machine: 'M1',
      codes: ['short'],
      stake: { amount: 500, bound: 'exact' },
      cautions: ['overShort', 'accounts'],
    });
    const over = find(collect('M1,2026-11-21 10:00,B1,21.00,0\n').make('2026-11-21'), 'bag-differs');
    expect(over).toMatchObject({ codes: ['over'], stake: { amount: 100, bound: 'exact' } });
  });

  it('have no more at stake than coins or bills where those cancel', () => {
    const item = find(collect('M1,2026-11-21 10:00,B1,15.00,5.00\n').make('2026-11-21'), 'bag-differs');
    expect(item).toMatchObject({ codes: ['kinds-differ'], stake: { amount: 500, bound: 'at-most' } });
  });

  it('are not listed when they agree', () => {
    const { attention } = collect('M1,2026-11-21 10:00,B1,20.00,0\n').make('2026-11-21');
    // The machine of these tests has no tubes, which is said as well.
    expect(attention.map(({ cause }) => cause)).toEqual(['change-short']);
  });
});

describe('bags that nobody counted', () => {
  it('have at stake what should be in them', () => {
    const item = find(collect('M1,2026-11-20 10:00,B0,0,0\n').make('2026-11-21'), 'bag-uncounted');
    expect(item).toMatchObject({ codes: ['uncounted'], stake: { amount: 2000, bound: 'exact' } });
  });
});

describe('bags that cannot be settled', () => {
  it('have all of it at stake where no capture vouches for anything', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, counts: `${COUNTS}M1,2026-11-21 10:00,B1,15.00,5.00\n` });
    office.take(startMachine(), { at: '2026-11-21T20:00:00' });
    const item = find(office.make('2026-11-21'), 'bag-open');
    expect(item).toMatchObject({ machine: 'M1', stake: { amount: 2000, bound: 'at-most' } });
  });

  it('have at stake what is beyond the last capture before them', () => {
    const counts = 'M1,2026-11-20 10:00,B0,0,0\nM1,2026-11-22 10:00,B1,26.00,0\n';
    const office = new DayScenario({ machines: ONE_MACHINE, counts: COUNTS + counts });
    const machine = startMachine({ tubes: [] });
    office.take(machine, { at: '2026-11-20T10:00:00', service: true }, { reason: 'service' });
    sell(machine, '11', 10, '2026-11-21T10:00:00');
    office.take(machine, {}, { reason: 'scheduled' });
    const item = find(office.make('2026-11-22'), 'bag-open');
    expect(item).toMatchObject({ codes: ['no-capture'], stake: { amount: 600, bound: 'at-most' } });
  });

  it('have nothing at stake where they agree all the same', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, counts: `${COUNTS}M1,2026-11-21 15:30,B1,20.00,0\n` });
    const machine = startMachine({ tubes: [] });
    office.take(machine, { at: '2026-11-20T10:00:00' }, { reason: 'service' });
    sell(machine, '11', 10, '2026-11-21T10:00:00');
    office.take(machine, {}, { reason: 'service' });
    const item = find(office.make('2026-11-21'), 'bag-open');
    expect(item).toMatchObject({ codes: ['match-by-date'], stake: { amount: 0, bound: 'exact' } });
  });

  /** The stake of a visit with these figures. */
  function stakeOf(...changes: Partial<Visit>[]) {
    const inputs = collect('M1,2026-11-21 10:00,B1,15.00,5.00\n').inputs('2026-11-21');
    const [settlement] = inputs.settlements.settlements;
    const finding = { code: 'two-counts', severity: 'doubt', message: 'Two bags.' } as const;
    const visits = changes.map((change) => ({
      ...settlement!.visits[0]!,
      state: 'unsettled' as const,
      findings: [finding],
      ...change,
    }));
    const settlements = { settlements: [{ ...settlement!, visits }], findings: [] };
    const office = collect('');
    return find(office.make('2026-11-21', { settlements }), 'bag-open')!.stake;
  }

  it('are short at least where less was counted than the least it can be', () => {
    const expected = { coins: 2000, bills: 0 };
    expect(stakeOf({ expected, counted: { coins: 1500, bills: 0 }, expectedIsFloor: true })).toMatchObject({
      amount: 500,
      bound: 'at-least',
    });
  });

  it('have at stake what was not counted, and what is not expected', () => {
    const counted = { coins: null, bills: null };
    expect(stakeOf({ expected: { coins: 2000, bills: 500 }, counted, expectedIsFloor: false })).toMatchObject({
      amount: 2500,
      bound: 'exact',
    });
    expect(stakeOf({ expected: { coins: 2000, bills: null }, counted, expectedIsFloor: true })).toMatchObject({
      amount: 2000,
      bound: 'at-least',
    });
    expect(stakeOf({ expected: counted, counted })).toMatchObject({ amount: null, bound: null });
  });

  it('are about as much where one is at least and another at most', () => {
    const short = { expected: { coins: 2000, bills: 0 }, counted: { coins: 1446, bills: 0 }, expectedIsFloor: true };
    const beyond = { expected: { coins: 2000, bills: 0 }, counted: { coins: 3446, bills: 0 }, expectedIsFloor: true };
    // 5.54 at least, 14.46 at most; two significant digits.
    expect(stakeOf(short, beyond)).toMatchObject({ amount: 2000, bound: 'about' });
    const exact = { expected: { coins: 2000, bills: 0 }, counted: { coins: 1990, bills: 0 }, expectedIsFloor: false };
    expect(stakeOf(exact)).toMatchObject({ amount: 10, bound: 'exact' });
  });
});
