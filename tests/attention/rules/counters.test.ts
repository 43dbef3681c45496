import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { DayScenario, sell, startMachine } from '../../day/day-scenario.js';
import { demoDay } from '../../day/demo-day.js';
import { stepsOf, withSteps } from '../../day/with-steps.js';
import { defineColumn } from '../../support/simulator/index.js';
import { at, find, live, selling } from './rule-scenario.js';

describe('counters that went back', () => {
  it('have at stake what the machine usually sells in that time, less what they show', () => {
    const office = new DayScenario();
    live(
      office,
      [
        selling('11', 10),
        selling('11', 10),
        (machine, until) => {
          sell(machine, '11', 6, at(23, '08:00:00'));
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

  it('are near the truth also on the day of the collection, some days after they went back', () => {
    // The simulated machine knows: 22.00 EUR in coins and 30.00 EUR in bills came in that no capture shows.
    const truth = JSON.parse(readFileSync(new URL('../../../fixtures/demo/truth.json', import.meta.url), 'utf8'));
    const visit = truth.visits.find(({ machine }: { machine: string }) => machine === 'V105');
    const { coins, bills } = visit.known.lostBetween;
    const { stake } = find(demoDay('2026-11-23'), 'counters-back')!;
    expect(Math.abs(stake.amount! - coins - bills)).toBeLessThan(1000);
  });

  it('are not known without a history', () => {
    const office = new DayScenario();
    const machine = startMachine({ columns: [defineColumn('11', 200, { pastVends: 900 })] });
    office.take(machine, { at: at(20) });
    machine.swapBoard('CB500009');
    office.take(machine, { at: at(21) });
    expect(find(office.make('2026-11-21'), 'counters-back')).toMatchObject({ stake: { amount: null } });
  });

  it('are nothing where the counters show as much as usual, and not known where time does not run', () => {
    const office = new DayScenario();
    live(office, [selling('11', 10), selling('11', 10)]);
    const inputs = office.inputs('2026-11-22');
    const [before, today] = stepsOf(inputs);
    const findings = [{ code: 'counter-backward' as const, severity: 'fault' as const, message: 'Went down.' }];
    const stakeOf = (changed: typeof today) =>
      find(makeDay(withSteps(inputs, [before!, changed!])), 'counters-back')!.stake;
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
    const [before, today] = stepsOf(inputs);
    const findings = [{ code: 'absent-counter' as const, severity: 'doubt' as const, message: 'Gone.' }];
    const stakeOf = (changed: typeof today) =>
      find(makeDay(withSteps(inputs, [before!, changed!])), 'counters-missing')!.stake;
    const columns = today!.columns.map((column) => (column.column === '11' ? { ...column, value: null } : column));
    expect(stakeOf({ ...today!, columns, findings })).toMatchObject({ amount: 2000, bound: 'about' });
    expect(stakeOf({ ...today!, findings })).toMatchObject({ amount: null });
    expect(stakeOf({ ...today!, from: today!.to, columns, findings })).toMatchObject({ amount: null });
  });
});
