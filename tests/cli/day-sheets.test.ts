import { describe, expect, it } from 'vitest';
import { loadDaySheets } from '../../src/cli/day-sheets.js';
import { dayShape, readOptions } from '../../src/cli/option-shapes.js';
import type { Terminal } from '../../src/cli/terminal.js';
import type { EarlierOffice } from '../../src/io/index.js';
import { makeFolder } from '../io/temporary-folder.js';

async function load(files: Record<string, string>, options: Record<string, unknown>, earlier?: EarlierOffice) {
  const cwd = makeFolder(files);
  return loadDaySheets(readOptions(dayShape, options), { cwd } as unknown as Terminal, earlier);
}

const FILES = {
  'machines.csv': 'machine,asset,currency,decimals\nV1,A1,EUR,2\n',
  'counts.csv': 'machine,visited_at,bag,coins,bills\nV1,2026-11-24,B1,12.50,5.00\nV9,2026-11-24,B2,x,0\n',
};

describe('loadDaySheets', () => {
  it('reads bags in the money of the roster, and says what could not be used of them', async () => {
    const { counts, findings, office } = await load(FILES, { machines: 'machines.csv', counts: 'counts.csv' });
    expect(office.roster.books.machines).toHaveLength(1);
    expect(counts!.rows.map(({ bag, coins, bills }) => [bag, coins, bills])).toContainEqual(['B1', 1250, 500]);
    expect(findings.map(({ code }) => code)).toContain('unknown-machine');
  });

  it('reads bags in the money that the book remembers, where no roster is given', async () => {
    const { roster } = (await load(FILES, { machines: 'machines.csv' })).office;
    const { counts } = await load(FILES, { counts: 'counts.csv' }, roster.books);
    expect(counts!.rows.map(({ bag, coins, bills }) => [bag, coins, bills])).toEqual([['B1', 1250, 500]]);
  });

  it('has no bags where no sheet is named', async () => {
    expect((await load(FILES, { machines: 'machines.csv' })).counts).toBeNull();
  });
});
