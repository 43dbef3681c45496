import { describe, expect, it } from 'vitest';
import type { AttentionCause } from '../../../src/attention/index.js';
import type { Day } from '../../../src/day/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { defineColumn } from '../../support/simulator/index.js';

const find = ({ attention }: Day, cause: AttentionCause) => attention.find((item) => item.cause === cause);
const at = (day: number, time = '20:00:00') => `2026-11-${day}T${time}`;

const COLUMNS = [
  defineColumn('11', 200, { par: 20, capacity: 20, product: 'Oat bar' }),
  defineColumn('12', 100, { par: 20, capacity: 20 }),
];

describe('columns that are sold out', () => {
  it('have at stake what they sold while they did, since then and for a day more', () => {
    const office = new DayScenario();
    const machine = startMachine({ columns: COLUMNS });
    office.take(machine, { at: at(20) }, { reason: 'service' });
    sell(machine, '11', 6, at(21));
    office.take(machine, {});
    sell(machine, '11', 6, at(22, '08:00:00'));
    machine.markSoldOut('11');
    office.take(machine, { at: at(22) });
    const item = find(office.make('2026-11-22'), 'sold-out');
    // 12.00 a day; sold out for half a day.
    expect(item).toMatchObject({ codes: ['sold-out'], stake: { amount: 600, bound: 'about', perDay: 1200 } });
    expect(item!.what).toBe("Column 11 (Oat bar) is sold out: since 2026-11-22 08:00 by the machine's own clock.");
    expect(item!.findings[0]).toMatchObject({ machine: 'M1', column: '11', element: 'PA501' });
  });

  it('are told in one line, also those that only the counters tell', () => {
    const office = new DayScenario({ machines: 'machine,asset\n' });
    const machine = startMachine({ columns: COLUMNS });
    office.take(machine, { at: at(20) }, { reason: 'service' });
    sell(machine, '11', 20, at(21));
    sell(machine, '12', 20, at(21));
    office.take(machine, {});
    const item = find(office.make('2026-11-21'), 'sold-out');
    expect(item!.what).toBe(
      '2 columns are sold out: 11, 12. First: Column 11 (Oat bar) is sold out: by its counters, since 20 were vended after it was filled to 20.',
    );
    // Since when is not known; 40.00 and 20.00 a day.
    expect(item!.stake).toMatchObject({ amount: null, perDay: 6000 });
    expect(item!.findings[0]).toMatchObject({ element: 'PA201' });
    expect(item!.findings[0]).not.toHaveProperty('machine');
  });

  it('cost nobody knows what without a history', () => {
    const office = new DayScenario();
    const machine = startMachine({ columns: COLUMNS });
    machine.markSoldOut('11');
    office.take(machine, { at: at(20) });
    expect(find(office.make('2026-11-20'), 'sold-out')).toMatchObject({ stake: { amount: null, perDay: null } });
  });
});

describe('machines that have stopped selling', () => {
  /** So many vends at 2.00 a day, read every evening. */
  function live(...days: number[]): DayScenario {
    return play(new DayScenario({ machines: ONE_MACHINE }), days);
  }

  function play(office: DayScenario, days: readonly number[]): DayScenario {
    const machine = startMachine();
    office.take(machine, { at: at(20) });
    days.forEach((times, place) => {
      sell(machine, '11', times, at(21 + place));
      office.take(machine, {});
    });
    return office;
  }

  it('have at stake what they usually sold in that time, and in a day', () => {
    const item = find(live(10, 10, 10, 0, 0).make('2026-11-25'), 'sales-stopped');
    expect(item).toMatchObject({ codes: ['sales-stopped'], stake: { amount: 4000, bound: 'about', perDay: 2000 } });
    expect(item!.what).toBe(
      'It has sold nothing since 2026-11-23 20:00 (2 days), where about 20 vends were to be expected: before, it sold about 10 a day. By chance that happens less than once in 1000 times.',
    );
  });

  it('are not told on a day without a capture of them, or on one that may be chance', () => {
    const office = live(10, 10, 10, 0, 0);
    expect(office.make('2026-11-26').attention.map(({ cause }) => cause)).toEqual(['not-read']);
    expect(live(2, 2, 2, 0).make('2026-11-24').attention).toEqual([]);
  });

  it('may be on no roster', () => {
    const item = find(play(new DayScenario(), [10, 10, 10, 0, 0]).make('2026-11-25'), 'sales-stopped');
    expect(item!.findings[0]).toMatchObject({ machine: 'M1' });
    const other = find(play(new DayScenario({}), [10, 10, 10, 0, 0]).make('2026-11-25'), 'sales-stopped');
    expect(other).toMatchObject({ machine: 'asset A100', stake: { amount: 4000 } });
    expect(other!.findings[0]).not.toHaveProperty('machine');
  });

  it('cost nobody knows what where less than a day of their sales is known', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: at(20, '08:00:00') });
    sell(machine, '11', 30, at(20));
    office.take(machine, {});
    office.take(machine, { at: at(21, '19:00:00') });
    const item = find(office.make('2026-11-21'), 'sales-stopped');
    expect(item!.stake).toMatchObject({ amount: null, perDay: null });
  });

  it('are not told where the last interval has no times', () => {
    const inputs = live(10, 10, 10, 0, 0).inputs('2026-11-25');
    const last = inputs.intervals.intervals.at(-1)!;
    const changed = { ...last, from: last.to };
    const intervals = { ...inputs.intervals, intervals: [...inputs.intervals.intervals.slice(0, -1), changed] };
    expect(find(live(10, 10, 10, 0, 0).make('2026-11-25', { intervals }), 'sales-stopped')).toBeUndefined();
  });
});
