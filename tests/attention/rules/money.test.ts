import { describe, expect, it } from 'vitest';
import type { AttentionCause } from '../../../src/attention/index.js';
import type { Day } from '../../../src/day/index.js';
import type { Interval } from '../../../src/interval/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { defineColumn, type MachineGiven } from '../../support/simulator/index.js';

const find = ({ attention }: Day, cause: AttentionCause) => attention.find((item) => item.cause === cause);
const day = (number: number, time = '20:00:00') => `2026-11-${number}T${time}`;

/** A machine read every evening, the first a service read; what happens before each of the others is given. */
function live(
  office: DayScenario,
  happenings: readonly ((machine: ReturnType<typeof startMachine>, until: string) => void)[],
  given: MachineGiven = {},
) {
  const machine = startMachine(given);
  office.take(machine, { at: day(20), service: true }, { reason: 'service' });
  happenings.forEach((happen, place) => {
    happen(machine, day(21 + place));
    machine.advanceTo(day(21 + place));
    office.take(machine, {}, { reason: 'scheduled' });
  });
  return machine;
}

const selling = (column: string, times: number) => (machine: ReturnType<typeof startMachine>, until: string) =>
  sell(machine, column, times, until);

describe('prices off plan', () => {
  const plan = 'machine,column,price\nM1,11,2.00\nM1,12,1.20\n';

  it('cost what was lost since they are off, and for a day more at what the column sells', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan });
    live(office, [selling('12', 4), selling('12', 6)]);
    const item = find(office.make('2026-11-22'), 'price-off-plan');
    // 10 sold, 0.20 too little each; 5 a day.
    expect(item).toMatchObject({ machine: 'M1', stake: { amount: 200, bound: 'exact', perDay: 100 } });
    expect(item!.what).toMatch(/^Column 12 is priced 1\.00 EUR, the plan says 1\.20 EUR\./);
    expect(item!.findings.map(({ code }) => code)).toEqual(['price-off-plan', 'price-off-plan']);
  });

  it('count also what customers paid too much, and do not cancel', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan: 'machine,column,price\nM1,11,1.80\nM1,12,1.20\n' });
    live(office, [
      selling('12', 4),
      (machine, until) => {
        sell(machine, '11', 6, day(22, '12:00:00'));
        sell(machine, '12', 2, until);
      },
    ]);
    const item = find(office.make('2026-11-22'), 'price-off-plan');
    // 6 at 0.20 too much, 6 at 0.20 too little.
    expect(item!.stake).toMatchObject({ amount: 240, bound: 'exact', perDay: 120 });
    expect(item!.what).toMatch(/^2 columns are off plan: 11, 12\. /);
  });

  it('are counted from the day they were off, not from before', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan });
    live(
      office,
      [
        selling('12', 4),
        (machine, until) => {
          sell(machine, '12', 5, day(22, '12:00:00'));
          machine.setPrice('12', 100);
          machine.advanceTo(until);
        },
        selling('12', 3),
      ],
      { columns: [defineColumn('11', 200), defineColumn('12', 120)] },
    );
    const last = find(office.make('2026-11-23'), 'price-off-plan');
    expect(last!.stake).toMatchObject({ amount: 60, bound: 'exact' });
    const before = find(office.make('2026-11-22'), 'price-off-plan');
    expect(before!.stake).toMatchObject({ amount: 0, bound: 'exact', perDay: 90 });
  });

  it('are told where they were put right in the day, too', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan });
    live(office, [
      selling('12', 4),
      (machine, until) => {
        sell(machine, '12', 5, day(22, '12:00:00'));
        machine.setPrice('12', 120);
        sell(machine, '12', 1, until);
      },
    ]);
    const item = find(office.make('2026-11-22'), 'price-off-plan');
    expect(item!.stake).toMatchObject({ amount: 180, bound: 'exact', perDay: 0 });
  });

  it('are at least what is known of them, and not known on a first capture', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan });
    live(office, [selling('12', 4), selling('12', 6)]);
    const first = find(office.make('2026-11-20'), 'price-off-plan');
    expect(first).toMatchObject({ what: expect.stringMatching(/^The price is 1\.00 EUR in column 12/) });
    expect(first!.stake).toMatchObject({ amount: null, perDay: null });
    const inputs = office.inputs('2026-11-22');
    const [today, before] = inputs.intervals.intervals.toReversed();
    const columns = before!.columns.map((column) => ({ ...column, loss: null }));
    const intervals = { ...inputs.intervals, intervals: [{ ...before!, columns }, today!] };
    const item = find(office.make('2026-11-22', { intervals }), 'price-off-plan');
    expect(item!.stake).toMatchObject({ amount: 120, bound: 'at-least' });
  });

  it('stop where the column was not there before', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan: `${plan}M1,13,1.50\n` });
    live(office, [
      selling('12', 0),
      (machine, until) => {
        machine.addColumn(defineColumn('13', 140));
        sell(machine, '13', 2, until);
      },
    ]);
    const item = find(office.make('2026-11-22'), 'price-off-plan');
    expect(item!.what).toMatch(/^2 columns are off plan: 12, 13\. /);
    expect(item!.stake.amount).toBe(20);
  });
});

describe('money that is not explained', () => {
  it('is what no price explains', () => {
    const office = new DayScenario();
    live(office, [
      (machine, until) => {
        machine.setPrice('12', 150);
        sell(machine, '12', 3, day(21, '12:00:00'));
        machine.setPrice('12', 100);
        machine.advanceTo(until);
      },
    ]);
    const item = find(office.make('2026-11-21'), 'money-unexplained');
    expect(item).toMatchObject({ codes: ['price-mismatch'], stake: { amount: 150, bound: 'exact' } });
    expect(item!.cautions).toEqual(['overShort', 'accounts']);
  });

  it('is at least the larger of two that may be the same, or not known', () => {
    const office = new DayScenario();
    live(office, [selling('12', 3)]);
    const inputs = office.inputs('2026-11-21');
    const [interval] = inputs.intervals.intervals;
    const say = (
      codes: readonly ('price-mismatch' | 'cash-sales-difference' | 'cash-split')[],
      unexplained: number,
      cash: number,
    ) => {
      const findings = codes.map((code) => ({ code, severity: 'doubt' as const, message: `${code}.` }));
      const columns = interval!.columns.map((column) => ({ ...column, unexplained }));
      const changed = { ...interval!, columns, cash: { ...interval!.cash, customerDifference: cash }, findings };
      const intervals = { ...inputs.intervals, intervals: [changed] };
      return find(office.make('2026-11-21', { intervals }), 'money-unexplained')!.stake;
    };
    expect(say(['cash-sales-difference'], 0, -70)).toMatchObject({ amount: 70, bound: 'exact' });
    expect(say(['price-mismatch', 'cash-sales-difference'], 30, 70)).toMatchObject({ amount: 70, bound: 'at-least' });
    expect(say(['price-mismatch', 'cash-sales-difference'], 40, 70)).toMatchObject({ amount: 80, bound: 'at-least' });
    expect(say(['cash-split'], 30, 70)).toMatchObject({ amount: null });
  });
});

describe('tubes that hold less than they should', () => {
  it('have at stake what is gone, over the day', () => {
    const office = new DayScenario();
    live(office, [
      (machine, until) => {
        sell(machine, '12', 3, day(21, '12:00:00'));
        machine.loseFromTubes(new Map([[100, 4]]));
        machine.advanceTo(until);
      },
    ]);
    const item = find(office.make('2026-11-21'), 'tube-difference');
    expect(item).toMatchObject({ stake: { amount: 400, bound: 'exact' } });
    expect(item!.cautions).toEqual(['harness', 'inside', 'tilt', 'overShort']);
  });

  it('have nothing at stake where it came back within the day', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: day(20) });
    machine.loseFromTubes(new Map([[100, 4]]));
    office.take(machine, { at: day(21, '08:00:00') });
    machine.fillByHand(new Map([[100, 4]]), false);
    office.take(machine, { at: day(21) });
    const item = find(office.make('2026-11-21'), 'tube-difference');
    expect(item!.findings).toHaveLength(2);
    expect(item!.stake).toMatchObject({ amount: 0, bound: 'exact' });
  });

  it('are about that much where an interval does not tell, and not known where none does', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: day(20) });
    machine.loseFromTubes(new Map([[100, 4]]));
    office.take(machine, { at: day(21, '08:00:00') });
    office.take(machine, { at: day(21) });
    const inputs = office.inputs('2026-11-21');
    const [first, second] = inputs.intervals.intervals;
    const silent = { ...second!, cash: { ...second!.cash, tubeDifference: null } };
    const stakeOf = (...changed: Interval[]) =>
      find(office.make('2026-11-21', { intervals: { ...inputs.intervals, intervals: changed } }), 'tube-difference')!
        .stake;
    expect(stakeOf(first!, silent)).toMatchObject({ amount: 400, bound: 'about' });
    const findings = first!.findings;
    expect(stakeOf({ ...silent, findings })).toMatchObject({ amount: null });
  });
});

describe('a day without intervals of its own', () => {
  it('is judged by what its visits were settled from', () => {
    const counts = 'machine,visited_at,coins,bills\nM1,2026-11-21 20:00,6.00,0\n';
    const office = new DayScenario({ machines: ONE_MACHINE, counts });
    const machine = startMachine({ tubes: [{ value: 100, capacity: 60, coins: 60 }] });
    office.take(machine, { at: day(20), service: true }, { reason: 'service' });
    machine.loseFromTubes(new Map([[100, 4]]));
    sell(machine, '11', 3, day(21));
    office.take(machine, { service: true }, { reason: 'service' });
    const inputs = office.inputs('2026-11-21');
    const item = find(
      office.make('2026-11-21', { checks: [], intervals: { ...inputs.intervals, intervals: [] } }),
      'tube-difference',
    );
    expect(item).toMatchObject({ machine: 'M1', stake: { amount: 400, bound: 'exact' } });
  });
});

describe('counters that went back', () => {
  it('have at stake what the machine usually sells in that time, less what they show', () => {
    const office = new DayScenario();
    live(
      office,
      [
        selling('11', 10),
        selling('11', 10),
        (machine, until) => {
          sell(machine, '11', 6, day(23, '08:00:00'));
          machine.swapBoard('CB500009');
          sell(machine, '11', 4, until);
        },
      ],
      {
        past: { changePercent: 10 },
        columns: [defineColumn('11', 200, { pastVends: 900 }), defineColumn('12', 100, { pastVends: 900 })],
      },
    );
    const item = find(office.make('2026-11-23'), 'counters-back');
    // 20.00 a day before, 8.00 shown since the new board.
    expect(item).toMatchObject({ codes: ['board-changed'], stake: { amount: 1200, bound: 'about' } });
  });

  it('are not known without a history', () => {
    const office = new DayScenario();
    const machine = startMachine({ columns: [defineColumn('11', 200, { pastVends: 900 })] });
    office.take(machine, { at: day(20) });
    machine.swapBoard('CB500009');
    office.take(machine, { at: day(21) });
    expect(find(office.make('2026-11-21'), 'counters-back')).toMatchObject({ stake: { amount: null } });
  });

  it('are nothing where the counters show as much as usual, and not known where time does not run', () => {
    const office = new DayScenario();
    live(office, [selling('11', 10), selling('11', 10)]);
    const inputs = office.inputs('2026-11-22');
    const [before, today] = inputs.intervals.intervals;
    const findings = [{ code: 'counter-backward' as const, severity: 'fault' as const, message: 'Went down.' }];
    const stakeOf = (changed: typeof today) =>
      find(
        office.make('2026-11-22', { intervals: { ...inputs.intervals, intervals: [before!, changed!] } }),
        'counters-back',
      )!.stake;
    expect(stakeOf({ ...today!, findings })).toMatchObject({ amount: 0, bound: 'about' });
    const totals = { ...today!.totals, value: null };
    expect(stakeOf({ ...today!, totals, findings })).toMatchObject({ amount: 2000 });
    expect(stakeOf({ ...today!, from: today!.to, findings })).toMatchObject({ amount: null });
  });
});

describe('counters that are missing', () => {
  it('have at stake what their columns usually sell', () => {
    const office = new DayScenario();
    live(office, [selling('11', 10), selling('11', 10)]);
    const inputs = office.inputs('2026-11-22');
    const [before, today] = inputs.intervals.intervals;
    const findings = [{ code: 'absent-counter' as const, severity: 'doubt' as const, message: 'Gone.' }];
    const stakeOf = (changed: typeof today) =>
      find(
        office.make('2026-11-22', { intervals: { ...inputs.intervals, intervals: [before!, changed!] } }),
        'counters-missing',
      )!.stake;
    const columns = today!.columns.map((column) => (column.column === '11' ? { ...column, value: null } : column));
    expect(stakeOf({ ...today!, columns, findings })).toMatchObject({ amount: 2000, bound: 'about' });
    expect(stakeOf({ ...today!, findings })).toMatchObject({ amount: null });
    expect(stakeOf({ ...today!, from: today!.to, columns, findings })).toMatchObject({ amount: null });
  });
});
