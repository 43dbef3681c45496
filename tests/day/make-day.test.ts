import { describe, expect, it } from 'vitest';
import { makeDay } from '../../src/day/index.js';
import type { LocalDate } from '../../src/model/index.js';
import { truthBetween } from '../support/simulator/index.js';
import { DayScenario, sell, startMachine } from './day-scenario.js';
import { demoDay, demoInputs } from './demo-day.js';
import { livesOfDemo } from './demo-lives.js';

describe('the demo on its last day (an invented scenario whose figures are known because they were made)', () => {
  const day = demoDay('2026-11-23');

  it('lists what was made wrong, worst first, and nothing else', () => {
    expect(day.attention.map(({ machine, cause, codes }) => [machine, cause, ...codes])).toEqual([
      ['V105', 'counters-back', 'restart-inside', 'board-changed'],
      ['V106', 'bag-differs', 'short'],
      ['V108', 'bag-open', 'no-capture'],
      ['V107', 'price-off-plan', 'price-off-plan'],
    ]);
  });

  it('says what is at stake: the short bag, the bag beyond its last read, the loss by the price', () => {
    const of = (machine: string) => day.attention.find((item) => item.machine === machine)!.stake;
    expect(of('V106')).toMatchObject({ amount: 500, bound: 'exact', perDay: null });
    expect(of('V107')).toMatchObject({ amount: 60, bound: 'exact' });
    // Counted less what the truth had in the bag at the read of the evening before.
    expect(of('V108')).toMatchObject({ amount: 200, bound: 'at-most' });
    expect(of('V105').bound).toBe('about');
  });

  it('counts files, machines and sales', () => {
    expect(day.files).toMatchObject({ files: 15, sound: 13, doubtful: 2, readAgain: 0, reads: 15, duplicates: 0 });
    expect(day.machines).toEqual({ expected: 8, read: 8, unknown: 0 });
    const lives = livesOfDemo();
    const truths = lives.map(({ reads }) => {
      const evening = reads.findLast(({ at }) => at.startsWith('2026-11-22'))!.read.snapshot;
      return truthBetween(evening, reads.at(-1)!.read.snapshot);
    });
    // V107's capture of the evening before was damaged, so its interval began a day earlier.
    const v107 = lives[6]!.reads;
    const before = v107.findLast(({ at }) => at.startsWith('2026-11-21'))!.read.snapshot;
    const longer = truthBetween(before, v107.at(-1)!.read.snapshot);
    const sold = truths.reduce((sum, { totals }) => sum + totals.sold, 0) - truths[6]!.totals.sold + longer.totals.sold;
    const value =
      truths.reduce((sum, { totals }) => sum + totals.value, 0) - truths[6]!.totals.value + longer.totals.value;
    expect(day.totals).toEqual([{ currency: 'EUR', decimals: 2, sold, value, intervals: 15, openIntervals: 0 }]);
    expect(day.sales.reduce((sum, row) => sum + row.sold!, 0)).toBe(sold);
  });

  it('says what every column needs: what was sold since the visit, at most where nobody read that', () => {
    for (const life of livesOfDemo()) {
      const visit = life.visits.at(-1)!;
      const isUnread = life.plan.machine === 'V108';
      const from = isUnread ? life.reads.findLast(({ at }) => at < visit.at)!.read.snapshot : visit.snapshot;
      const truth = truthBetween(from, life.reads.at(-1)!.read.snapshot);
      const rows = day.refill.filter(({ machine }) => machine === life.plan.machine);
      expect(rows.map(({ column, toFill, flags }) => [column, toFill, ...flags])).toEqual(
        truth.columns.map(({ column, sold, test, free }) => [
          column,
          sold + test + free,
          ...(isUnread ? ['visit-unread'] : []),
        ]),
      );
    }
  });
});

describe('the demo on the day before', () => {
  const day = demoDay('2026-11-22');

  it('says that the damaged capture is to be read again first, and nothing of the day before', () => {
    expect(day.attention[0]).toMatchObject({
      machine: 'V107',
      cause: 'read-again',
      severity: 'fault',
      stake: { bound: 'about' },
    });
    expect(day.attention.flatMap(({ codes }) => codes)).not.toContain('cut-short');
    expect(day.files).toMatchObject({ readAgain: 1, duplicates: 1 });
  });

  it('names exactly the columns that are sold out', () => {
    const truly = livesOfDemo().flatMap(({ plan, visits, reads, restart }) => {
      const last = reads.findLast(({ at }) => at.startsWith('2026-11-22'))!.read.snapshot;
      // The damaged capture of V107 shows nothing, and V105's counters began again after the visit.
      if (plan.machine === 'V107' || restart !== null) return [];
      const sold = new Map(
        truthBetween(visits[0]!.snapshot, last).columns.map((column) => [column.column, column.sold]),
      );
      return plan.config.columns
        .filter(({ column, par }) => sold.get(column) === par)
        .map(({ column }) => `${plan.machine} ${column}`);
    });
    const said = day.refill
      .filter(({ soldOut }) => soldOut !== null)
      .map(({ machine, column }) => `${machine} ${column}`);
    expect(truly.length).toBeGreaterThan(5);
    expect(said.filter((one) => !/V105|V107/.test(one))).toEqual(truly);
  });

  it('says nothing of a clock that is off only against a late copy', () => {
    expect(day.attention.filter(({ cause }) => cause === 'clock-wrong')).toEqual([]);
  });
});

describe('makeDay', () => {
  it('has the interval up to a capture that came late, and leaves the one after it to the day of its end', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' });
    sell(machine, '11', 3, '2026-11-21T20:00:00');
    office.take(machine, {}, { receivedAt: '2026-11-23T09:00:00', file: 'late.dex' });
    sell(machine, '11', 2, '2026-11-22T20:00:00');
    office.take(machine, {});
    expect(office.make('2026-11-22').sales.map(({ column, sold }) => [column, sold])).toEqual([
      ['11', 5],
      ['12', 0],
    ]);
    const late = office.make('2026-11-23');
    expect(late.cash.map(({ sold }) => sold)).toEqual([3]);
  });

  it('leaves what machines that are out of use need out of the refill', () => {
    const office = new DayScenario({ machines: 'machine,asset,active\nM1,A100,no\n' });
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' }, { reason: 'service' });
    const day = office.make('2026-11-20');
    expect(day.refill).toEqual([]);
    expect(day.machines).toEqual({ expected: 0, read: 0, unknown: 0 });
  });

  it('lists a read that does not say whose it is on its own day only', () => {
    const office = new DayScenario();
    const nameless = new TextEncoder().encode('DXS*T*VA*V1/1*1\r\nST*001*0001\r\nID4*2*978*EUR\r\nID1*000**\r\n');
    office.addFile('nameless.dex', nameless, { day: '2026-11-23' });
    office.take(startMachine(), { at: '2026-11-24T20:00:00' });
    const codesOn = (day: LocalDate) => office.make(day).attention.flatMap(({ codes }) => codes);
    expect(codesOn('2026-11-23')).toContain('capture-unusable');
    expect(codesOn('2026-11-24')).toEqual([]);
  });

  it('looks only for the machines it is told to look for', () => {
    const inputs = demoInputs('2026-11-22');
    const part = makeDay({ ...inputs, checks: [], expected: inputs.roster.books.machines.slice(0, 2) });
    const missing = part.attention.filter(({ cause }) => cause === 'not-read');
    expect(missing.map(({ machine }) => machine).toSorted()).toEqual(['V101', 'V102']);
    expect(part.machines).toEqual({ expected: 2, read: 0, unknown: 0 });
  });

  it('takes what was done before from an older history as well', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' });
    office.take(machine, { at: '2026-11-21T20:00:00' });
    const stretch = {
      from: '2026-10-20T20:00:00',
      to: '2026-11-19T20:00:00',
      currency: 'EUR',
      decimals: 2,
      sold: 300,
      value: 60_000,
      cashSales: 60_000,
      cardSales: null,
      bills: 0,
      floor: false,
      columns: [],
    };
    const day = office.make('2026-11-21', { past: new Map([['machine M1', [stretch]]]) });
    expect(day.attention).toMatchObject([
      { machine: 'M1', cause: 'sales-stopped', stake: { amount: 2000, bound: 'about', perDay: 2000 } },
    ]);
  });
});

describe('a machine that is known by its board alone', () => {
  const boardOnly = startMachine({ identity: { serial: '0000', asset: '000000' } });
  const scenario = new DayScenario({});
  scenario.take(boardOnly, { at: '2026-11-21T09:00:00', service: true }, { reason: 'service' });
  sell(boardOnly, '11', 3, '2026-11-22T08:00:00');
  scenario.take(boardOnly, { at: '2026-11-22T09:00:00', service: true }, { reason: 'service' });
  const day = scenario.make('2026-11-22');

  it('is one machine in rows, list, visits and count of the day', () => {
    expect(day.sales[0]).toMatchObject({ machine: 'board CB500001', column: '11', sold: 3 });
    expect(day.machines).toEqual({ expected: 0, read: 0, unknown: 1 });
    expect(day.attention.filter(({ machine }) => machine === null)).toEqual([]);
    const visits = day.settlements.flatMap((settlement) => settlement.visits);
    expect(visits).toMatchObject([{ machine: 'CB500001', state: 'uncounted' }]);
    expect(day.refill[0]).toMatchObject({ machine: 'board CB500001', sold: 0 });
  });
});
