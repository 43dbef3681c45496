import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type BookExportJson, takeIn } from '../../src/book/index.js';
import { askDuckDb, listFiles, tableOf } from '../book/export/read-tables.js';
import { openBook, RECORDED_AT, temporaryFolder } from '../book/store/temporary-book.js';
import { DEMO, demoRoster } from '../support/demo-files.js';
import { bookJsonOf, makeBookFolder, runBook } from './book-folder.js';
import { expectReadable } from './run-program.js';

const SHEETS = ['--machines', `${DEMO}/machines.csv`, '--plan', `${DEMO}/plan.csv`];

async function makeDemoFolder(): Promise<string> {
  const folder = temporaryFolder();
  const book = await openBook(join(folder, 'coilbook.db'));
  await takeIn(book, ['captures'], {
    day: '2026-11-23',
    recordedAt: () => RECORDED_AT,
    take: { roster: demoRoster() },
    workplace: { cwd: DEMO, stdin: process.stdin },
  });
  return folder;
}

describe('book export', () => {
  it('writes the tables where it was told to, by the roster and plan of today', async () => {
    const folder = await makeDemoFolder();
    const outcome = await runBook(folder, ['export', '--parquet', 'tables', ...SHEETS]);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expect(outcome.lines[0]).toBe('All days of the book are in tables.');
    expectReadable(outcome);
    const [found] = await askDuckDb(
      `SELECT count(*) > 0 AS some, count(product) > 0 AS products, count(price_plan) > 0 AS prices
        FROM ${tableOf(join(folder, 'tables'), 'columns')} WHERE machine = 'V101' AND location IS NOT NULL`,
    );
    expect(found).toEqual({ some: true, products: true, prices: true });
  });

  it('writes only the days asked for, and says how much as JSON', async () => {
    const folder = await makeDemoFolder();
    const argv = ['export', '--parquet', 'tables', ...SHEETS, '--from', '2026-11-21', '--to', '2026-11-21', '--json'];
    const [exported] = bookJsonOf<BookExportJson>(await runBook(folder, argv), 'book-export');
    expect(exported).toMatchObject({ folder: 'tables', from: '2026-11-21', to: '2026-11-21', partitions: 3 });
    expect(listFiles(join(folder, 'tables'))).toEqual([
      'captures/day=2026-11-21/part-0.parquet',
      'cash/day=2026-11-21/part-0.parquet',
      'columns/day=2026-11-21/part-0.parquet',
    ]);
  });

  it.each([
    [['--from', '2026-11-21', '--to', '2026-11-21'], 'The day 2026-11-21 of the book is in tables.'],
    [
      ['--from', '2026-11-21', '--to', '2026-11-22'],
      'The days of the book from 2026-11-21 to 2026-11-22 are in tables.',
    ],
    [['--from', '2026-11-22'], 'The days of the book from 2026-11-22 on are in tables.'],
    [['--to', '2026-11-20'], 'The days of the book up to 2026-11-20 are in tables.'],
  ])('says which days were asked for: %s', async (span, answer) => {
    const { folder } = await makeBookFolder();
    expect((await runBook(folder, ['export', '--parquet', 'tables', ...span])).lines[0]).toBe(answer);
  });

  it('tells a person at a terminal how far it has come', async () => {
    const folder = await makeDemoFolder();
    const { err } = await runBook(folder, ['export', '--parquet', 'tables'], { isTTY: true, tick: 1500 });
    expect(err).toContain('2026-11-20 …');
    expect(err.endsWith('\r\u001b[K')).toBe(true);
  });

  it('refuses wrong use, and changes nothing without the sheets that were asked for', async () => {
    const { folder } = await makeBookFolder();
    const run = (...argv: string[]) => runBook(folder, ['export', ...argv]);
    expect((await run()).err).toMatch(/^coilbook: required option '--parquet <folder>' not specified/);
    expect((await run('--parquet', 't', '--csv')).err).toMatch(/^coilbook: --csv makes no sense/);
    expect((await run('--parquet', 't', '--from', '2026-11-02', '--to', '2026-11-01')).err).toMatch(/is after --to/);
    const unread = await run('--parquet', 't', '--machines', 'none.csv');
    expect([unread.status, unread.out]).toEqual([66, '']);
    expect(unread.err).toMatch(/none\.csv could not be read[\s\S]*nothing was exported/);
    expect(listFiles(folder).filter((file) => file.endsWith('.parquet'))).toEqual([]);
  });

  it('exports what it can where a row of a sheet is in doubt, and says so', async () => {
    const folder = await makeDemoFolder();
    writeFileSync(join(folder, 'machines.csv'), 'machine,asset,decimals\nV101,,two\n');
    const outcome = await runBook(folder, ['export', '--parquet', 't', '--machines', 'machines.csv']);
    expect([1, 2]).toContain(outcome.status);
    expect(outcome.err).toContain('machines.csv');
    expect(outcome.lines[0]).toMatch(/^All days/);
  });

  it('says where it can not write, and that nothing was changed', async () => {
    const { folder } = await makeBookFolder();
    writeFileSync(join(folder, 'file'), '');
    const onFile = await runBook(folder, ['export', '--parquet', 'file']);
    expect([onFile.status, onFile.out]).toEqual([66, '']);
    expect(onFile.err).toMatch(
      /^coilbook: The export to .*file could not be written: it is a file, not a folder\. What was/,
    );
    mkdirSync(join(folder, 'locked'));
    chmodSync(join(folder, 'locked'), 0o500);
    const locked = await runBook(folder, ['export', '--parquet', 'locked/tables']);
    // The superuser may write everywhere.
    if (process.getuid?.() === 0) expect(locked.status).toBe(0);
    else expect(locked.err).toMatch(/this user may not write there/);
  });

  it('says what stands in the way of the book', async () => {
    const outcome = await runBook(temporaryFolder(), ['export', '--parquet', 't']);
    expect([outcome.status, outcome.out]).toEqual([66, '']);
    expect(outcome.err).toMatch(/is not there/);
  });
});
