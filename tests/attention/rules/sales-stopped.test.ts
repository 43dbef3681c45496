import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { stepsOf, withSteps } from '../../day/with-steps.js';
import { at, find } from './rule-scenario.js';

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
    const steps = stepsOf(inputs);
    const last = steps.at(-1)!;
    const changed = withSteps(inputs, [...steps.slice(0, -1), { ...last, from: last.to }]);
    expect(find(makeDay(changed), 'sales-stopped')).toBeUndefined();
  });
});
