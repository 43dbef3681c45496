import { describe, expect, it } from 'vitest';
import type { IntervalJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture } from '../support/build-capture.js';
import { captureOf, TRUTH, WHOLE_VISITS } from './demo-truth.js';
import { csvOf, expectReadable, jsonOf, runProgram, SHEETS } from './run-program.js';

const DEMO = 'fixtures/demo/captures';

describe('interval --json', () => {
  it.each(WHOLE_VISITS.map((visit) => [visit.machine, visit] as const))('%s is as it was played', async (_, visit) => {
    const captures = [captureOf(visit.openingCapture), captureOf(visit.visitCapture!)];
    const [interval, ...others] = jsonOf<IntervalJson>(
      await runProgram(['interval', ...captures, ...SHEETS, '--json']),
      'interval',
    );
    expect(others).toEqual([]);
    expect(interval).toMatchObject({
      machine: { name: visit.machine },
      from: { file: captures[0] },
      to: { file: captures[1] },
      currency: 'EUR',
      decimals: 2,
      basis: 'lifetime',
      floor: false,
    });
    // A counter that the machine leaves out altogether is not known; absent is not zero.
    const { sold, value, test, free } = interval!.totals;
    expect({ sold, value, test: test ?? 0, free: free ?? 0 }).toEqual(visit.totals);
    const { cashIn, toCashBox, toTubes, bills, dispensed, byHand, filled, cashSales } = visit.cash;
    const { tubesFrom, tubesTo, tubeDifference } = visit.cash;
    expect(interval!.cash).toMatchObject({
      ...{ cashIn, toCashBox, toTubes, bills, dispensed, byHand, filled, cashSales },
      ...{ tubesFrom, tubesTo, tubeDifference },
    });
    const { cardSales, overpaid } = interval!.cash;
    expect([cardSales ?? 0, overpaid ?? 0]).toEqual([visit.cash.cardSales, visit.cash.overpaid]);
    expect(interval!.columns.map(({ column }) => column)).toEqual(visit.columns.map(({ column }) => column));
    for (const [i, { lossFromPrice, column, ...known }] of visit.columns.entries()) {
      const found = interval!.columns[i]!;
      const { test: tests, free: frees, ...prices } = known;
      expect(found).toMatchObject({ column, ...prices, unexplained: 0 });
      expect([found.test ?? 0, found.free ?? 0]).toEqual([tests, frees]);
      if (known.priceTo !== known.pricePlan) expect(found.loss).toBe(lossFromPrice);
    }
  });

  it('gives every pair of consecutive reads, and never counts one twice', async () => {
    const outcome = await runProgram(['interval', DEMO, ...SHEETS, '--json']);
    const intervals = jsonOf<IntervalJson>(outcome, 'interval');
    for (const { machine, totals } of WHOLE_VISITS) {
      const visit = TRUTH.visits.find((one) => one.machine === machine)!;
      const own = intervals.filter((interval) => interval.machine.name === machine);
      const upTo = own.findIndex(({ to }) => to.file === captureOf(visit.visitCapture!));
      const sold = own.slice(0, upTo + 1).map((interval) => interval.totals.sold!);
      expect([machine, sold.reduce((a, b) => a + b)]).toEqual([machine, totals.sold]);
    }
    const general = intervals[0]!.general!.map(({ code }) => code).sort();
    expect(general).toEqual(['capture-unusable', 'capture-unusable', 'duplicate-read', 'duplicate-read']);
    expect(intervals.filter((interval) => 'general' in interval)).toHaveLength(1);
    expect(outcome.status).toBe(2);
  });

  it('prints what there is to say where there is no interval', async () => {
    const outcome = await runProgram(['interval', '-', '--json'], {
      stdin: buildCapture(['ID1*S1'], { crc: 'wrong' }),
    });
    expect(jsonOf(outcome, 'general')).toMatchObject([{ general: [{ code: 'capture-unusable' }] }]);
    expect(outcome.status).toBe(2);
  });
});

describe('interval as text', () => {
  it('begins with the answer and shows what sold, what the cash did, and what to look at', async () => {
    const captures = [captureOf('2026-11-20-1047-v107.dex'), captureOf('2026-11-23-1047-v107.dex')];
    const outcome = await runProgram(['interval', ...captures, ...SHEETS]);
    expectReadable(outcome);
    const { lines, out, status } = outcome;
    const visit = TRUTH.visits.find(({ machine }) => machine === 'V107')!;
    expect(lines[0]).toBe(`V107, Town archive: ${visit.totals.sold} sold for ${visit.totals.value / 100}.00 EUR`);
    expect(out).toMatch(/\n {2}23 .* 1\.40 {2}1\.50 {2}off plan: -0\.60\n/);
    expect(out).toMatch(/\n {2}card sales +0\.00\n/);
    expect(out).toContain('price-off-plan');
    expect(out).toContain('Cautions');
    expect(status).toBe(1);
  });

  it('counts intervals where there are several', async () => {
    const outcome = await runProgram(['interval', DEMO, ...SHEETS]);
    expectReadable(outcome);
    expect(outcome.lines[0]).toMatch(/^\d+ intervals of 8 machines: \d+ with doubts\.$/);
    const one = await runProgram(['interval', DEMO, ...SHEETS, '--only', 'V101']);
    expect(one.lines[0]).toBe('5 intervals of 1 machine: nothing to look at.');
    expect((await runProgram(['interval', DEMO, '--only', 'nobody'])).lines[0]).toMatch(/^No interval/);
  });

  it('shows a changed price with what was sold at which', async () => {
    const captures = [captureOf('2026-11-20-0926-v104.dex'), captureOf('2026-11-23-0926-v104.dex')];
    const { out } = await runProgram(['interval', ...captures, ...SHEETS]);
    const { split } = TRUTH.visits
      .find(({ machine }) => machine === 'V104')!
      .columns.find(({ column }) => column === '14')!;
    expect(out).toContain(`  ${split.map(({ count, price }) => `${count} at ${(price / 100).toFixed(2)}`).join(', ')}`);
  });
});

describe('interval --csv', () => {
  const captures = [captureOf('2026-11-20-0805-v101.dex'), captureOf('2026-11-23-0805-v101.dex')];
  const visit = TRUTH.visits.find(({ machine }) => machine === 'V101')!;

  it('has one row a column', async () => {
    const rows = csvOf(await runProgram(['interval', ...captures, ...SHEETS, '--csv']));
    expect(rows.map(({ column, sold, value }) => [column, Number(sold), Math.round(Number(value) * 100)])).toEqual(
      visit.columns.map(({ column, sold, value }) => [column, sold, value]),
    );
  });

  it('has one row an interval with --table cash', async () => {
    const rows = csvOf(await runProgram(['interval', ...captures, ...SHEETS, '--table', 'cash']));
    expect(rows).toMatchObject([{ machine: 'V101', cash_in: '252.80', tube_difference: '0.00', card_sales: '0.00' }]);
    expect(await runProgram(['interval', ...captures, '--table', 'gold'])).toMatchObject({
      status: 64,
      err: 'coilbook: --table: expected sales or cash, not "gold"\n',
    });
  });

  it('makes formulas in product names harmless, and leaves numbers alone', async () => {
    const capture = (n: number) =>
      buildCapture([
        'ID1*S1*M1',
        'ID4*2*978*EUR',
        'EA3*0*0*0*0*0*0*0*0*'.slice(0, -1) + n,
        'PA1*11*100*=cmd()',
        `PA2*${n}*${n * 100}`,
      ]);
    const folder = makeFolder({ 'a.dex': capture(5), 'b.dex': capture(7) });
    const [row] = csvOf(await runProgram(['interval', 'a.dex', 'b.dex', '--csv'], { cwd: folder }));
    expect(row).toMatchObject({ product: "'=cmd()", sold: '2', value: '2.00' });
  });
});

describe('interval with a roster that has a wrong number', () => {
  it('says that captures of a machine not on the roster are there, and is not done', async () => {
    const capture = (sold: number) =>
      buildCapture(['ID1*S1*M1****A101', `VA1*${sold}*${sold}*0*0`, 'PA1*11*1', `PA2*${sold}*${sold}*0*0`]);
    const cwd = makeFolder({ 'm.csv': 'machine,asset\nV101,A1O1\n', 'a.dex': capture(100) });
    const { out, lines, status } = await runProgram(['interval', 'a.dex', '--machines', 'm.csv'], { cwd });
    expect(lines[0]).not.toContain('nothing to look at');
    const told = out.replaceAll(/\s+/g, ' ');
    expect(told).toContain('1 capture is of the machine with asset A101 and serial S1, which is not on the roster');
    expect(told).toContain('It may be V101');
    expect(status).toBe(1);
  });

  it('says so in the first line where there are intervals of others', async () => {
    const capture = (asset: string, sold: number) =>
      buildCapture([`ID1*S1*M1****${asset}`, `VA1*${sold}*${sold}*0*0`, 'PA1*11*1', `PA2*${sold}*${sold}*0*0`]);
    const cwd = makeFolder({
      ...{ 'm.csv': 'machine,asset\nV101,A1O1\nV2,A2\n', 'a.dex': capture('A101', 100) },
      ...{ 'b.dex': capture('A2', 100), 'c.dex': capture('A2', 101), 'd.dex': capture('A2', 102) },
    });
    const { lines } = await runProgram(['interval', 'a.dex', 'b.dex', 'c.dex', 'd.dex', '--machines', 'm.csv'], {
      cwd,
    });
    expect(lines[0]).toBe('2 intervals of 1 machine: 1 machine not on the roster, see below.');
  });
});
