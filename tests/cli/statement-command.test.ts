import { describe, expect, it } from 'vitest';
import type { StatementJson } from '../../src/report/index.js';
import { writeCounters } from '../accounts/machine-days.js';
import { makeFolder } from '../io/temporary-folder.js';
import { captureOf, TRUTH } from './demo-truth.js';
import { csvOf, expectReadable, jsonOf, runProgram, SHEETS } from './run-program.js';

const DEMO = ['statement', '--captures', 'fixtures/demo/captures', ...SHEETS];

describe('statement of the demo', () => {
  it('states what was sold between the two collections, as it was played', async () => {
    const visits = ['V101', 'V102'].map((name) => TRUTH.visits.find(({ machine }) => machine === name)!);
    const captures = visits.flatMap((visit) => [visit.openingCapture, visit.visitCapture!]).map(captureOf);
    const outcome = await runProgram(['statement', '--captures', ...captures, ...SHEETS, '--json']);
    const statements = jsonOf<StatementJson>(outcome, 'statement');
    expect(statements.map(({ location }) => location)).toEqual(['Library foyer', 'Clinic waiting room']);
    for (const [i, { cash, machine }] of visits.entries()) {
      const { cashSales, cardSales, gross, lines } = statements[i]!;
      expect([machine, cashSales, cardSales]).toEqual([machine, cash.cashSales, cash.cardSales]);
      expect(gross).toBe(cash.cashSales! + cash.cardSales!);
      expect(lines.map((line) => line.machine)).toEqual([machine]);
    }
    // 10 % of the gross of 149.50 is 14.95 exactly.
    expect(statements[0]!.gross).toBe(14_950);
    expect(statements[0]).toMatchObject({
      base: { amount: 14_950, remainder: '0' },
      commission: { amount: 1495, remainder: '0' },
    });
    expect(outcome.status).toBe(0);
  });

  it('begins the text with what is to be paid, and says what is left out of the accounts', async () => {
    const outcome = await runProgram(DEMO);
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('2 statements: commission 50.34 EUR.');
    // 12.5 % of net: 256.40 / 1.07 = 239.6261..., of which the eighth is 29.9532...; of the rounded net it would be
    // 29.95375. 29.9532 less 29.95 is 0.3271 cents, which is 35/107.
    expect(outcome.out).toContain('\nClinic waiting room: commission 29.95 EUR on 256.40 EUR sold.\n');
    expect(outcome.out).toMatch(/\n {2}commission is taken of +239\.63\n {2}commission +29\.95\n/);
    expect(outcome.out).toContain('commission is 35/107 of a minor unit more');
    expect(outcome.out).toContain('capture-unusable');
    expect(outcome.status).toBe(2);
  });

  it('keeps to the days asked for: an interval belongs to the day of its later read', async () => {
    const grossOf = async (...argv: string[]) =>
      jsonOf<StatementJson>(await runProgram([...DEMO, '--json', ...argv]), 'statement').map(({ gross }) => gross!);
    const [all, before, after] = [
      await grossOf(),
      await grossOf('--to', '2026-11-21'),
      await grossOf('--from', '2026-11-22'),
    ];
    expect(before.map((gross, i) => gross + after[i]!)).toEqual(all);
    expect(before.every((gross) => gross > 0)).toBe(true);
  });
});

// One night of a hall with two machines, and of a yard.
const CAPTURES = {
  'in/1.dex': writeCounters({ asset: 'A1', at: '2026-11-16 00:05', cash: 100_000, card: 50_000 }),
  'in/2.dex': writeCounters({ asset: 'A1', at: '2026-11-17 00:05', cash: 100_900, card: 50_090 }),
  'in/3.dex': writeCounters({ asset: 'A2', at: '2026-11-16 00:06', cash: 20_000, card: 0 }),
  'in/4.dex': writeCounters({ asset: 'A2', at: '2026-11-17 00:06', cash: 20_015, card: 0 }),
  'in/5.dex': writeCounters({ asset: 'A3', at: '2026-11-16 00:07', cash: 5_000, card: 0 }),
  'in/6.dex': writeCounters({ asset: 'A3', at: '2026-11-17 00:07', cash: 6_000, card: 0 }),
};
const HEAD = 'machine,asset,location,currency,commission_percent,commission_base,tax_percent,tax_included\n';
async function state(machines: readonly string[], ...argv: string[]) {
  const cwd = makeFolder({ ...CAPTURES, 'in/machines.csv': HEAD + machines.map((row) => `${row}\n`).join('') });
  return runProgram(['statement', '--captures', 'in', '--machines', 'in/machines.csv', ...argv], { cwd });
}
const HALL = ['M1,A1,Hall,EUR,5,gross,,', 'M2,A2,Hall,EUR,10,gross,,'];
const YARD = 'M3,A3,Yard,EUR,10,net,19,yes';

describe('statement, worked by hand (common practice)', () => {
  it('rounds once for the whole location, half to even, and states what was left out', async () => {
    // 5 % of 9.90 is 49.5 cents and 10 % of 0.15 is 1.5 cents: 51 cents exactly. Rounded machine by machine, half to
    // even, they would be 50 and 2.
    const [hall, yard] = jsonOf<StatementJson>(await state([...HALL, YARD], '--json'), 'statement');
    expect(hall).toMatchObject({
      location: 'Hall',
      gross: 1005,
      commission: { amount: 51, remainder: '0' },
      tax: null,
    });
    // 10.00 with 19 % inside: 1.5966... of tax; 10 % of 8.4033... is 84.0336... cents: 4/119 more than 84.
    expect(yard).toMatchObject({
      gross: 1000,
      tax: { amount: 160, remainder: '-40/119' },
      net: 840,
      base: { amount: 840, remainder: '40/119' },
      commission: { amount: 84, remainder: '4/119' },
    });
  });

  it('takes the even one of two equally near amounts', async () => {
    // 0.25 % of 10.00 is 2.5 cents, which goes to 2; 0.35 % is 3.5, which goes to 4.
    const of = async (percent: string) =>
      jsonOf<StatementJson>(
        await state([HALL[0]!, HALL[1]!, `M3,A3,Yard,EUR,${percent},gross,,`], '--json'),
        'statement',
      ).at(-1)!.commission;
    expect(await of('0.25 %')).toEqual({ amount: 2, remainder: '1/2' });
    expect(await of('0.35 %')).toEqual({ amount: 4, remainder: '-1/2' });
  });

  it('ends with 0 as text, one location standing for itself', async () => {
    const outcome = await state([HALL[0]!, HALL[1]!, 'M3,A3,Yard,EUR,,,,']);
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('Hall: commission 0.51 EUR on 10.05 EUR sold.');
    expect(outcome.out).toContain('No rounding was needed.');
    expect(outcome.out).toContain("operator's\n  accountant");
    expect(outcome.status).toBe(0);
  });

  it('has one row a location in CSV, and one a machine with --table machines', async () => {
    const rows = csvOf(await state([...HALL, YARD], '--csv'));
    expect(rows).toMatchObject([
      { location: 'Hall', machines: 'M1 M2', gross: '10.05', commission: '0.51', commission_remainder: '0', tax: '' },
      { location: 'Yard', gross: '10.00', tax: '1.60', net: '8.40', base: '8.40', commission: '0.84' },
    ]);
    expect(rows[1]!.commission_remainder).toBe('4/119 of a minor unit more');
    const machines = csvOf(await state([...HALL, YARD], '--table', 'machines'));
    expect(
      machines.map(({ location, machine, sales, commission_percent }) => [
        location,
        machine,
        sales,
        commission_percent,
      ]),
    ).toEqual([
      ['Hall', 'M1', '9.90', '5'],
      ['Hall', 'M2', '0.15', '10'],
      ['Yard', 'M3', '10.00', '10'],
    ]);
    expect(await state(HALL, '--table', 'gold')).toMatchObject({
      status: 64,
      err: 'coilbook: --table: expected locations or machines, not "gold"\n',
    });
  });

  it('says that a machine was last read before the period ended', async () => {
    const outcome = await state([...HALL, YARD], '--to', '2026-11-30');
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('2 statements: commission 1.35 EUR.');
    expect(outcome.out.replaceAll(/\s+/g, ' ')).toContain(
      'Machine M3 was last read on 2026-11-17 at 00:07, before the period ended on 2026-11-30',
    );
    expect(outcome.status).toBe(1);
  });

  it('makes no statement of a part: a machine without reads leaves the sums open', async () => {
    const outcome = await state([...HALL, 'M8,A8,Hall,EUR,10,gross,,', YARD]);
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('2 statements: commission 0.84 EUR, not known for 1.');
    expect(outcome.out).toContain('Hall: sales not known, so no statement.');
    expect(outcome.out).toContain('sales-not-known');
    expect(outcome.status).toBe(1);
    expect((await state([...HALL, 'M8,A8,Hall,EUR,10,gross,,', YARD], '--strict')).status).toBe(2);
  });

  it('says which machines were read and are in no statement', async () => {
    const outcome = await state(HALL);
    expect(outcome.lines[0]).toBe('Hall: commission 0.51 EUR on 10.05 EUR sold.');
    expect(outcome.out.replaceAll(/\s+/g, ' ')).toContain(
      'The machine of asset A3: no one machine on the roster fits, so what it sold is in no statement.',
    );
    expect(outcome.status).toBe(1);
  });

  it('says that there is none where no rates are stated, and what stands in the way', async () => {
    const none = await state(['M1,A1,Hall,EUR,,,,', 'M2,A2,Hall,EUR,,,,', 'M3,A3,Yard,EUR,,,,']);
    expect(none.lines).toEqual(['No statement: the machine sheet states no commission and no tax rate.']);
    expect(none.status).toBe(0);
    const cwd = makeFolder({ ...CAPTURES, 'machines.csv': 'asset,location\nA1,Hall\n' });
    const argv = ['statement', '--captures', 'in', '--machines', 'machines.csv'];
    const outcome = await runProgram(argv, { cwd });
    expect(outcome.lines[0]).toMatch(/^fault {2}machines\.csv/);
    expect(outcome.status).toBe(2);
    expect((await runProgram([...argv.slice(0, 4), 'gone.csv'], { cwd })).status).toBe(66);
    expect(jsonOf(await runProgram([...argv, '--json'], { cwd }), 'general')).toHaveLength(1);
  });

  it('shows hostile text as text', async () => {
    const rows = ['"=1+1\u001b[31m",A1,"@Hall\u202e",EUR,5,gross,,', 'M2,A2,"@Hall\u202e",EUR,10,gross,,', YARD];
    expectReadable(await state(rows));
    const [hall] = csvOf(await state(rows, '--csv'));
    expect(hall!.location).toMatch(/^'@Hall/);
    expect(hall!.machines).toMatch(/^'=1\+1/);
  });
});

describe('options of statement', () => {
  it('are refused in one line where they make no sense', async () => {
    const errorOf = async (...argv: string[]) => {
      const { status, err } = await runProgram(['statement', '--captures', '.', ...argv]);
      return `${status} ${err}`;
    };
    expect(await errorOf()).toBe('64 coilbook: --machines: expected the roster of machines, which holds the rates\n');
    expect(await errorOf('--machines', 'm.csv', '--to', 'yesterday')).toMatch(/^64 .*--to: expected a date such as/);
    expect(await errorOf('--machines', 'm.csv', '--from', '2026-11-02', '--to', '2026-11-01')).toMatch(
      /^64 .*--from 2026-11-02 is after --to 2026-11-01/,
    );
    expect(await errorOf('--machines', '-', '--plan', '-')).toMatch(/standard input \(-\) can be named only once/);
    expect((await runProgram(['statement', '--machines', 'm.csv'])).err).toMatch(/--captures or --book/);
  });
});
