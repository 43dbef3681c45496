import { describe, expect, it } from 'vitest';
import { DayScenario, sell, startMachine } from '../../day/day-scenario.js';
import { defineColumn } from '../../support/simulator/index.js';
import { at, find } from './rule-scenario.js';

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
