import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import type { Step } from '../../../src/interval/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { stepsOf, withSteps } from '../../day/with-steps.js';
import { at, find, live, selling } from './rule-scenario.js';

describe('money that is not explained', () => {
  it('is what no price explains', () => {
    const office = new DayScenario();
    live(office, [
      (machine, until) => {
        machine.setPrice('12', 150);
        sell(machine, '12', 3, at(21, '12:00:00'));
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
    const [interval] = stepsOf(inputs);
    const say = (
      codes: readonly ('price-mismatch' | 'cash-sales-difference' | 'cash-split')[],
      unexplained: number,
      cash: number,
    ) => {
      const findings = codes.map((code) => ({ code, severity: 'doubt' as const, message: `${code}.` }));
      const columns = interval!.columns.map((column) => ({ ...column, unexplained }));
      const changed = { ...interval!, columns, cash: { ...interval!.cash, customerDifference: cash }, findings };
      return find(makeDay(withSteps(inputs, [changed])), 'money-unexplained')!.stake;
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
        sell(machine, '12', 3, at(21, '12:00:00'));
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
    office.take(machine, { at: at(20) });
    machine.loseFromTubes(new Map([[100, 4]]));
    office.take(machine, { at: at(21, '08:00:00') });
    machine.fillByHand(new Map([[100, 4]]), false);
    office.take(machine, { at: at(21) });
    const item = find(office.make('2026-11-21'), 'tube-difference');
    expect(item!.findings).toHaveLength(2);
    expect(item!.stake).toMatchObject({ amount: 0, bound: 'exact' });
  });

  it('are about that much where an interval does not tell, and not known where none does', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: at(20) });
    machine.loseFromTubes(new Map([[100, 4]]));
    office.take(machine, { at: at(21, '08:00:00') });
    office.take(machine, { at: at(21) });
    const inputs = office.inputs('2026-11-21');
    const [first, second] = stepsOf(inputs);
    const silent = { ...second!, cash: { ...second!.cash, tubeDifference: null } };
    const stakeOf = (...changed: Step[]) => find(makeDay(withSteps(inputs, changed)), 'tube-difference')!.stake;
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
    office.take(machine, { at: at(20), service: true }, { reason: 'service' });
    machine.loseFromTubes(new Map([[100, 4]]));
    sell(machine, '11', 3, at(21));
    office.take(machine, { service: true }, { reason: 'service' });
    const inputs = office.inputs('2026-11-21');
    const item = find(makeDay({ ...withSteps(inputs, []), checks: [] }), 'tube-difference');
    expect(item).toMatchObject({ machine: 'M1', stake: { amount: 400, bound: 'exact' } });
  });
});
