import { describe, expect, it } from 'vitest';
import { measureStock } from '../../src/attention/index.js';
import { type Day, makeCashRow, makeRefillRows, makeSalesRows } from '../../src/day/index.js';
import { buildInterval } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { defineColumn } from '../support/simulator/index.js';
import { takeSegments } from '../support/taken.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from './day-scenario.js';

const flagsOf = ({ sales }: Day) => Object.fromEntries(sales.map(({ column, flags }) => [column, flags]));
const at = (day: number, time = '20:00:00') => `2026-11-${day}T${time}`;

describe('sales rows', () => {
  it('say machine, column, product, period, money and prices', () => {
    const office = new DayScenario({
      machines: ONE_MACHINE,
      plan: 'machine,column,product,price\nM1,11,Oat bar,2.00\n',
    });
    const machine = startMachine();
    office.take(machine, { at: at(20) });
    sell(machine, '11', 3, at(21));
    machine.vendTest('11');
    office.take(machine, {});
    expect(office.make('2026-11-21').sales[0]).toEqual({
      machine: 'M1',
      location: 'Library',
      route: 'R7',
      from: '2026-11-20T20:00:00',
      to: '2026-11-21T20:00:00',
      currency: 'EUR',
      decimals: 2,
      column: '11',
      product: 'Oat bar',
      sold: 3,
      value: 600,
      test: 1,
      free: 0,
      priceFrom: 200,
      priceTo: 200,
      pricePlan: 200,
      loss: 0,
      unexplained: 0,
      flags: [],
      replaces: [],
    });
  });

  it('flag prices that are off plan, were changed or explain nothing, and columns that came and went', () => {
    const office = new DayScenario({ machines: ONE_MACHINE, plan: 'machine,column,price\nM1,11,2.10\nM1,14,1.00\n' });
    const columns = [defineColumn('11', 200), defineColumn('12', 100), defineColumn('13', 100), defineColumn('14', 90)];
    const machine = startMachine({ columns });
    office.take(machine, { at: at(20) });
    machine.setPrice('12', 130);
    sell(machine, '12', 1, at(21, '08:00:00'));
    machine.setPrice('12', 120);
    sell(machine, '14', 2, at(21, '08:00:00'));
    machine.setPrice('14', 100);
    machine.removeColumn('13');
    machine.addColumn(defineColumn('15', 100));
    office.take(machine, { at: at(21) });
    expect(flagsOf(office.make('2026-11-21'))).toEqual({
      11: ['off-plan'],
      12: ['price-changed', 'unexplained'],
      13: ['not-known', 'column-gone'],
      14: ['off-plan', 'price-changed'],
      15: ['new-column'],
    });
  });

  it('flag counters that began again, or are not lifetime ones', () => {
    const office = new DayScenario();
    const columns = [defineColumn('11', 200, { pastVends: 900 })];
    const machine = startMachine({ columns });
    office.take(machine, { at: at(20) });
    machine.swapBoard('CB9');
    sell(machine, '11', 2, at(21));
    office.take(machine, {});
    const day = office.make('2026-11-21');
    expect(flagsOf(day)).toEqual({ 11: ['restart', 'floor'] });
    expect(day.cash[0]!.flags).toEqual(['restart', 'floor']);
    const bare = (day: number, count: number) =>
      takeSegments(['ID1*S1*M****A1', `ID5*2611${day}*1000`, 'PA1*11*150', `PA2***${count}*${count * 150}`], {
        file: `${day}.dex`,
        profile: { name: 'p', resets: 'every-read' },
      });
    const interval = buildInterval(bare(20, 9), bare(21, 4), new Roster());
    expect(makeSalesRows(interval)[0]).toMatchObject({ machine: 'asset A1', location: null, sold: 4 });
    expect(makeSalesRows(interval)[0]!.flags).toContain('interval-counters');
    expect(makeCashRow(interval).flags).toContain('interval-counters');
  });
});

describe('cash rows', () => {
  it('say what cash did, and that a machine books cash as card sales', () => {
    const office = new DayScenario();
    const machine = startMachine({ devices: { card: true }, maker: { cashSalesBookedAs: 'DA' } });
    office.take(machine, { at: at(20) });
    sell(machine, '11', 3, at(21));
    office.take(machine, {});
    expect(office.make('2026-11-21').cash).toMatchObject([
      { machine: 'M1', sold: 3, value: 600, cashIn: 600, cardSales: 600, cashSales: 0, flags: ['cash-as-card'] },
    ]);
  });
});

describe('refill rows', () => {
  it('say that a count is of an earlier day, or of no known time', () => {
    const office = new DayScenario();
    const machine = startMachine({ columns: [defineColumn('11', 200, { par: 9, capacity: 10 })] });
    office.take(machine, { at: at(20) }, { reason: 'service' });
    sell(machine, '11', 2, at(21));
    office.take(machine, {});
    const row = {
      ...{ machine: 'M1', location: 'Library', route: 'R7', column: '11', product: null, par: 9, capacity: 10 },
      ...{ since: at(20), until: at(21), basis: 'service-read', sold: 2, test: 0, free: 0, left: 7, toFill: 2 },
      ...{ soldOut: null, flags: [] },
    };
    expect(office.make('2026-11-21').refill).toEqual([row]);
    expect(office.make('2026-11-22').refill).toEqual([{ ...row, flags: ['old'] }]);
    const timeless = takeSegments(['ID1*S1*M****A1', 'PA1*11*150', 'PA2*4*600']);
    const stock = measureStock({
      ...{
        ordered: [timeless],
        stepTo: new Map(),
        contentsOf: () => timeless,
        faulty: [],
        visits: [],
        roster: new Roster(),
      },
    })!;
    expect(makeRefillRows(stock, '2026-11-22')).toMatchObject([
      { since: null, until: null, basis: null, toFill: null, flags: ['no-fill-known', 'old'] },
    ]);
  });
});
