import { describe, expect, it } from 'vitest';
import type { DepositsJson } from '../../src/report/index.js';
import { writeCounters } from '../accounts/machine-days.js';
import { makeFolder } from '../io/temporary-folder.js';
import { TRUTH } from './demo-truth.js';
import { csvOf, expectReadable, jsonOf, runProgram, SHEETS } from './run-program.js';

const DEMO = [
  'deposits',
  '--captures',
  'fixtures/demo/captures',
  '--deposits',
  'fixtures/demo/deposits.csv',
  ...SHEETS,
  '--day-ends-at',
  '22:00',
  '--complete-to',
  '2026-11-27',
];

describe('deposits of the demo', () => {
  it('fits what was paid to what was sold by card on each day, as it was played', async () => {
    const outcome = await runProgram([...DEMO, '--json']);
    const [compared, ...others] = jsonOf<DepositsJson>(outcome, 'deposits');
    expect(others).toEqual([]);
    const own = compared!.matches.filter(({ machine }) => machine === 'V102');
    expect(own.map(({ sales, gross, state }) => ({ sales, gross, state }))).toEqual(
      TRUTH.cardDays.map(({ amount, paid }) => ({
        sales: amount,
        gross: paid,
        state: paid === null ? 'missing' : paid === amount ? 'matched' : 'differing',
      })),
    );
    expect(compared!.matches.filter(({ machine }) => machine !== 'V102')).toMatchObject([
      { machine: null, device: 'CRSIM700911', state: 'extra', reason: 'unknown-device', gross: 320, sales: null },
    ]);
    // 1.76 of 83.20 is 2.115... %, by hand.
    expect(compared!.totals).toMatchObject([
      { currency: 'EUR', decimals: 2, deposits: 4, gross: 8320, fees: 176, net: 8144, feePercent: '2.12' },
    ]);
    expect(compared!.general!.map(({ code }) => code).sort()).toEqual([
      'capture-unusable',
      'capture-unusable',
      'duplicate-read',
      'duplicate-read',
    ]);
    expect(outcome.status).toBe(2);
  });

  it('begins the text with the answer', async () => {
    const outcome = await runProgram(DEMO);
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('Card deposits: 1 differing, 1 missing, 1 extra, 2 matched.');
    expect(outcome.out).toMatch(/\n {2}V102 +2026-11-21 +34\.40 +- +- +-34\.40 +missing\n/);
    for (const word of ['fees 1.76 EUR (2.12 %)', 'deposit-missing', 'capture-unusable', "operator's\n  accountant"]) {
      expect(outcome.out).toContain(word);
    }
  });

  it('has one row a comparison in CSV', async () => {
    const rows = csvOf(await runProgram([...DEMO, '--csv']));
    expect(
      rows.map(({ machine, state, card_sales, gross, difference }) => [machine, state, card_sales, gross, difference]),
    ).toEqual([
      ['V102', 'matched', '28.40', '28.40', '0.00'],
      ['V102', 'missing', '34.40', '', '-34.40'],
      ['V102', 'matched', '31.80', '31.80', '0.00'],
      ['V102', 'differing', '21.30', '19.80', '-1.50'],
      ['', 'extra', '', '3.20', '3.20'],
    ]);
  });

  it('keeps to the days asked for, with sums of those alone', async () => {
    const [compared] = jsonOf<DepositsJson>(
      await runProgram([...DEMO, '--json', '--from', '2026-11-22', '--to', '2026-11-22']),
      'deposits',
    );
    expect(compared!.matches.map(({ machine, state }) => [machine, state])).toEqual([['V102', 'matched']]);
    expect(compared!.totals).toMatchObject([{ deposits: 1, gross: 3180, fees: 65, net: 3115 }]);
  });

  it('waits for deposits that are not due, where nothing says that the sheet is complete', async () => {
    const { lines } = await runProgram(DEMO.slice(0, -2));
    expect(lines[0]).toBe('Card deposits: 1 extra, 2 matched, 2 open.');
  });

  it('does not take the deposits sheet for a capture', async () => {
    const argv = DEMO.map((arg) => (arg === 'fixtures/demo/captures' ? 'fixtures/demo' : arg));
    const { out } = await runProgram(argv);
    expect(out).toContain('fixtures/demo/truth.json');
    for (const sheet of ['machines.csv', 'plan.csv', 'captures.csv']) expect(out).not.toContain(`demo/${sheet}`);
    // Named where a row of it is meant, and nowhere else.
    const rest = out.replaceAll(/\s+/g, ' ').replaceAll(/demo\/deposits\.csv, row \d+/g, '');
    expect(rest).not.toContain('demo/deposits.csv');
  });
});

// Three nights of one machine: 12.56 EUR by card in the first day, 4.80 EUR in the second.
const CAPTURES = {
  'in/1.dex': writeCounters({ at: '2026-11-16 00:05', cash: 100_000, card: 50_000, device: 'CR-1' }),
  'in/2.dex': writeCounters({ at: '2026-11-17 00:05', cash: 101_000, card: 51_256, device: 'CR-1' }),
  'in/3.dex': writeCounters({ at: '2026-11-18 00:05', cash: 102_000, card: 51_736, device: 'CR-1' }),
  'machines.csv': 'machine,asset,location,currency,has_card\nM1,A1,Hall,EUR,yes\n',
};
const HEAD = 'machine,device,date,gross,fees,net,reference\n';
/** Run the command in a folder with these captures and these rows of the processor's sheet. */
async function compare(rows: readonly string[], ...argv: string[]) {
  const cwd = makeFolder({ ...CAPTURES, 'deposits.csv': HEAD + rows.map((row) => `${row}\n`).join('') });
  const files = ['--captures', 'in', '--deposits', 'deposits.csv', '--machines', 'machines.csv'];
  return runProgram(['deposits', ...files, ...argv], { cwd });
}

describe('deposits, worked by hand (common practice)', () => {
  it('ends with 0 where every deposit is what was sold', async () => {
    // 12.56 less 0.31, and 4.80 less 0.12: together 0.43 of 17.36, which is 2.476... %.
    const outcome = await compare([',CR-1,2026-11-17,12.56,0.31,12.25,P1', 'M1,,2026-11-18,4.80,0.12,4.68,P2']);
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('Card deposits: 2 matched.');
    expect(outcome.out).toContain('2 deposits, gross 17.36 EUR; fees 0.43 EUR (2.48 %), net 16.93 EUR.');
    expect(outcome.out).not.toContain('Cautions');
    expect(outcome.status).toBe(0);
  });

  it('takes one payment for several days together', async () => {
    const rows = ['M1,,2026-11-19,17.36,,,P1'];
    const [compared] = jsonOf<DepositsJson>(await compare(rows, '--json'), 'deposits');
    expect(compared!.matches).toMatchObject([
      { state: 'matched', sales: 1736, gross: 1736, difference: 0, fees: null },
    ]);
    expect(compared!.matches[0]!.captures).toEqual(['in/1.dex', 'in/2.dex', 'in/3.dex']);
  });

  it('is a doubt, and with --strict a fault, where one is missing', async () => {
    const rows = ['M1,,2026-11-18,4.80,0.12,4.68,P2'];
    const complete = ['--complete-from', '2026-11-16', '--complete-to', '2026-11-30'];
    const outcome = await compare(rows, ...complete);
    expect(outcome.lines[0]).toBe('Card deposits: 1 missing, 1 matched.');
    expect(outcome.out).toContain('12.56 EUR sold by card from 2026-11-16 to 2026-11-17');
    expect(outcome.status).toBe(1);
    expect((await compare(rows, ...complete, '--strict')).status).toBe(2);
    // A window so long that the deposit may still come.
    expect((await compare(rows, ...complete, '--window-days', '30')).status).toBe(0);
  });

  it('says that rows which could not be used may be what is missing', async () => {
    const { out, status } = await compare(
      ['M1,,2026-11-17,12.S6,0.31,12.25,P1', 'M1,,2026-11-18,4.80,0.12,4.68,P2', 'M7,,2026-11-18,1.00,,,P3'],
      ...['--complete-from', '2026-11-16', '--complete-to', '2026-11-30'],
    );
    expect(out).toContain('2 rows of deposits.csv could not be used: what is said to be missing');
    expect(out).toContain('"M7" is not on the roster');
    expect(status).toBe(1);
  });

  it('compares nothing where the sheet is no sheet of deposits', async () => {
    const cwd = makeFolder({ ...CAPTURES, 'deposits.csv': 'machine,visited_at,coins\nM1,2026-11-16,1.00\n' });
    const argv = ['deposits', '--captures', 'in', '--deposits', 'deposits.csv', '--complete-to', '2026-11-30'];
    const outcome = await runProgram(argv, { cwd });
    expectReadable(outcome);
    expect(outcome.lines[0]).toMatch(/^fault {2}deposits\.csv/);
    expect(outcome.out).toContain('Nothing was compared: there are no deposits or no captures to read.');
    expect(outcome.out).not.toContain('deposit-missing');
    expect(outcome.status).toBe(2);
    expect(jsonOf(await runProgram([...argv, '--json'], { cwd }), 'general')).toHaveLength(1);
    const gone = await runProgram([...argv.slice(0, 4), 'gone.csv'], { cwd });
    expect([gone.status, gone.lines[0]]).toEqual([
      66,
      'Nothing was compared: there are no deposits or no captures to read.',
    ]);
  });

  it('calls no deposit extra where there is no capture at all', async () => {
    const cwd = makeFolder({ ...CAPTURES, 'empty/notes.csv': '', 'deposits.csv': `${HEAD}M1,,2026-11-18,4.80,,,P2\n` });
    const files = ['--deposits', 'deposits.csv', '--currency', 'EUR'];
    for (const captures of ['empty', 'gone']) {
      const outcome = await runProgram(['deposits', '--captures', captures, ...files], { cwd });
      expect(outcome.lines[0]).toBe('Nothing was compared: there are no deposits or no captures to read.');
      expect(outcome.status).toBe(66);
    }
  });

  it('shows hostile text as text', async () => {
    const rows = ['"=HYPERLINK(""x"")\u001b[31m",,2026-11-18,1.00,0.05,0.95,"@cmd"', ',CR-1,2026-11-18,4.80,,,"-1+2"'];
    const argv = ['--currency', 'EUR'];
    expectReadable(await compare(rows, ...argv));
    const table = await compare(rows, ...argv, '--csv');
    const [, extra] = [table, csvOf(table).find(({ state }) => state === 'extra')!];
    expect(extra.machine).toMatch(/^'=HYPERLINK/);
    expect(extra.references).toBe("'@cmd");
    // A difference below zero stays a number for a spreadsheet.
    expect(
      csvOf(
        await compare(
          rows.slice(0, 1),
          ...argv,
          '--csv',
          '--complete-from',
          '2026-11-16',
          '--complete-to',
          '2026-11-30',
        ),
      ).find(({ state }) => state === 'missing')!.difference,
    ).toMatch(/^-\d+\.\d\d$/);
  });
});

describe('options of deposits', () => {
  it('are refused in one line where they make no sense', async () => {
    const errorOf = async (...argv: string[]) => {
      const { status, err } = await runProgram(['deposits', '--captures', '.', '--deposits', 'd.csv', ...argv]);
      return `${status} ${err}`;
    };
    expect(await errorOf('--day-ends-at', '24:00')).toBe(
      '64 coilbook: --day-ends-at: expected a time of day such as 06:00, not "24:00"\n',
    );
    expect(await errorOf('--window-days', '-1')).toMatch(
      /^64 .*--window-days: expected a whole number of days, 0 or more/,
    );
    expect(await errorOf('--from', '2026-02-30')).toMatch(/^64 .*--from: expected a date such as/);
    expect(await errorOf('--from', '2026-11-02', '--to', '2026-11-01')).toBe(
      '64 coilbook: --from 2026-11-02 is after --to 2026-11-01\n',
    );
    expect(await errorOf('--complete-from', '2026-11-02', '--complete-to', '2026-11-01')).toMatch(
      /^64 .*--complete-from 2026-11-02 is after --complete-to/,
    );
    expect(await errorOf('--json', '--csv')).toMatch(/^64 /);
    expect(await errorOf('--machines', '-', '--captures-list', '-')).toMatch(
      /standard input \(-\) can be named only once/,
    );
    expect((await runProgram(['deposits', '--captures', '.'])).err).toMatch(/--deposits <file>/);
  });
});
