import { realpathSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadOffice, loadSheet, realPaths } from '../../src/io/index.js';
import { readCounts } from '../../src/sheets/index.js';
import { makeFolder, workIn } from './temporary-folder.js';

const SHEETS = {
  'machines.csv': 'machine,asset,currency,profile\nM1,A1,EUR,own\n',
  'plan.csv': 'machine,column,product,price\nM1,11,Oat bar,1.50\nM9,11,Oat bar,1.50\n',
  'list.csv': 'file,received_at\na.dex,2026-11-24 10:15\n',
  'own.json': '{"name":"own"}',
};

describe('loadOffice', () => {
  it('puts all that the office knows together', async () => {
    const folder = makeFolder(SHEETS);
    const files = { machines: 'machines.csv', plan: 'plan.csv', capturesList: 'list.csv', profiles: ['own.json'] };
    const { roster, money, findings, sheetPaths } = await loadOffice(files, null, workIn(folder));
    expect(roster.machine('M1')).toMatchObject({ asset: 'A1' });
    expect(roster.planned('M1', '11', null)).toMatchObject({ price: 150 });
    expect(roster.listed('a.dex')).toMatchObject({ receivedAt: '2026-11-24T10:15:00' });
    expect(roster.books.profiles).toEqual([{ name: 'own' }]);
    expect(money.decimalsOf('M1')).toBe(2);
    expect(sheetPaths).toContain(realpathSync(join(folder, 'plan.csv')));
    // The price of a machine without a currency can not be read, and the machine is not on the roster.
    expect(findings.map(({ code, row }) => [code, row])).toEqual([
      ['bad-cell', 3],
      ['unknown-machine', 3],
    ]);
  });

  it('names machines that the roster lacks', async () => {
    const plan = 'machine,column,product,price\nM1,11,Oat bar,1.50\nM9,11,Oat bar,1.50\nM9,12,Toffee,1.50\n';
    const folder = makeFolder({ ...SHEETS, 'plan.csv': plan });
    const { findings } = await loadOffice({ machines: 'machines.csv', plan: 'plan.csv' }, 2, workIn(folder));
    expect(findings.map(({ code, row, field, message }) => [code, row, field, message])).toEqual([
      [
        'unknown-machine',
        3,
        'machine',
        'plan.csv, row 3, column machine: "M9" is not on the roster; expected a machine of it. This and 1 more row of it have no effect; all others count.',
      ],
    ]);
  });

  it('knows nothing where nothing was given, and goes on where a sheet is missing', async () => {
    const nothing = await loadOffice({}, null, workIn('/'));
    expect(nothing.roster.books.machines).toEqual([]);
    expect(nothing.findings).toEqual([]);
    const folder = makeFolder(SHEETS);
    const { roster, findings } = await loadOffice(
      { machines: 'gone.csv', capturesList: 'list.csv' },
      2,
      workIn(folder),
    );
    expect(findings.map(({ code, file }) => [code, file])).toEqual([['unreadable-file', 'gone.csv']]);
    expect(roster.listed('a.dex')).not.toBeNull();
  });
});

describe('loadSheet', () => {
  it('gives no rows of a sheet that was not asked for', async () => {
    const money = { decimalsOf: () => 2, currencyOf: () => null, defaultDecimals: 2 };
    const read = (sheet: Parameters<typeof readCounts>[0]) => readCounts(sheet, money);
    expect(await loadSheet(undefined, read, workIn('/'))).toEqual({ rows: [], findings: [] });
    const sheet = 'machine,visited_at,coins\nM1,2026-11-24,12.50\n';
    expect((await loadSheet('-', read, workIn('/', sheet))).rows).toMatchObject([{ machine: 'M1', coins: 1250 }]);
  });
});

describe('realPaths', () => {
  it('leaves out what is not there and standard input', async () => {
    const folder = makeFolder({ a: '' });
    expect(await realPaths(['a', 'gone', '-', undefined], workIn(folder))).toEqual(
      new Set([realpathSync(join(folder, 'a'))]),
    );
  });
});
