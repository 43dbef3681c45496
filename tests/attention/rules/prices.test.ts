import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { DayScenario, ONE_MACHINE, sell } from '../../day/day-scenario.js';
import { stepsOf, withSteps } from '../../day/with-steps.js';
import { defineColumn } from '../../support/simulator/index.js';
import { at, find, live, selling } from './rule-scenario.js';

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
        sell(machine, '11', 6, at(22, '12:00:00'));
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
          sell(machine, '12', 5, at(22, '12:00:00'));
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
        sell(machine, '12', 5, at(22, '12:00:00'));
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
    const [today, before] = stepsOf(inputs).toReversed();
    const columns = before!.columns.map((column) => ({ ...column, loss: null }));
    const item = find(makeDay(withSteps(inputs, [{ ...before!, columns }, today!])), 'price-off-plan');
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
