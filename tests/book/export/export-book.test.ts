import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type ExportOptions, exportBook } from '../../../src/book/export/export-book.js';
import { takeIn } from '../../../src/book/intake/index.js';
import { meetRoster, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { makeCashRow, makeSalesRows } from '../../../src/day/index.js';
import { buildIntervals } from '../../../src/interval/index.js';
import { bestTime } from '../../../src/model/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { DEMO, demoReads, demoRoster } from '../../support/demo-files.js';
import { makeCapture, makeRead, openBook, RECORDED_AT, sha256Of, temporaryFolder } from '../store/temporary-book.js';
import { askDuckDb, listFiles, readMetadata, readRows, tableOf } from './read-tables.js';

const ROSTER = demoRoster();
const ALL = { from: null, to: null, take: { roster: ROSTER } } as const;

/** The demo's captures, but for one that is the same file under another name: the book has such bytes once. */
const FILES = readdirSync(join(DEMO, 'captures')).filter((file) => !file.includes('again'));

/** A book with the demo's captures in it. */
async function bookOfDemo(): Promise<BookStore> {
  const book = await openBook();
  await takeIn(
    book,
    FILES.map((file) => join('captures', file)),
    {
      day: '2026-11-23',
      recordedAt: () => RECORDED_AT,
      take: ALL.take,
      workplace: { cwd: DEMO, stdin: process.stdin },
    },
  );
  return book;
}

async function exportAll(book: BookStore, changes: Partial<ExportOptions> = {}, folder = temporaryFolder()) {
  const tally = await exportBook(book, folder, { ...ALL, ...changes });
  return { folder, tally };
}

/** What `buildIntervals` makes of the captures themselves: the truth that the tables are held against. */
const { intervals: TRUTH } = buildIntervals(
  demoReads(ROSTER).filter(({ file }) => !file.includes('again')),
  ROSTER,
);

/** The sum of what is known; null when nothing is. */
function sumOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0);
}

function groupTruth<Row extends { readonly machine: string }>(rows: readonly Row[]): [string, readonly Row[]][] {
  const machines = [...new Set(rows.map(({ machine }) => machine))].sort();
  return machines.map((machine) => [machine, rows.filter((row) => row.machine === machine)]);
}

describe.each([
  ['whose intervals are worked out', true],
  ['to which captures came since they were', false],
])('the tables of a book %s', (_, isWorkedOut) => {
  const make = async () => {
    const book = await bookOfDemo();
    if (isWorkedOut) await workOutStale(book, ALL);
    expect((await book.staleMachines()).length > 0).toBe(!isWorkedOut);
    return exportAll(book);
  };

  it('have the columns that buildIntervals gives, machine by machine', async () => {
    const { folder, tally } = await make();
    const rows = TRUTH.flatMap(makeSalesRows);
    expect(tally.columns).toBe(rows.length);
    const found = await askDuckDb(
      `SELECT machine, count(*)::INT AS n, sum(sold)::INT AS sold, sum(value)::INT AS value, sum(loss)::INT AS loss,
        sum((value IS NULL)::INT)::INT AS missing, sum((price_plan IS NULL)::INT)::INT AS unplanned
        FROM ${tableOf(folder, 'columns')} GROUP BY machine ORDER BY machine`,
    );
    expect(found).toEqual(
      groupTruth(rows).map(([machine, own]) => ({
        machine,
        n: own.length,
        sold: sumOf(own.map(({ sold }) => sold)),
        value: sumOf(own.map(({ value }) => value)),
        loss: sumOf(own.map(({ loss }) => loss)),
        missing: own.filter(({ value }) => value === null).length,
        unplanned: own.filter(({ pricePlan }) => pricePlan === null).length,
      })),
    );
  });

  it('have the cash that buildIntervals gives, each on the day of its later read', async () => {
    const { folder, tally } = await make();
    expect(tally.cash).toBe(TRUTH.length);
    const found = await askDuckDb(
      `SELECT machine, day::VARCHAR AS day, to_time::VARCHAR AS until, cash_in::INT AS cash_in, tubes_to::INT AS tubes_to,
        flags FROM ${tableOf(folder, 'cash')} ORDER BY machine, to_time, cash_in`,
    );
    const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
    const rows = TRUTH.map((interval) => ({ ...makeCashRow(interval), at: bestTime(interval.to)! })).sort(
      (a, b) => byText(a.machine, b.machine) || byText(a.at, b.at),
    );
    expect(found).toEqual(
      rows.map(({ machine, at, cashIn, tubesTo, flags }) => ({
        machine,
        day: at.slice(0, 10),
        until: at.replace('T', ' '),
        cash_in: cashIn,
        tubes_to: tubesTo,
        flags: flags.join(' '),
      })),
    );
  });
});

describe('exportBook', () => {
  it('writes the same whatever is worked off together', async () => {
    const book = await bookOfDemo();
    const one = await exportAll(book);
    const other = await exportAll(book, { readsAtOnce: 1 });
    expect(other.tally).toEqual(one.tally);
    const files = listFiles(one.folder);
    expect(listFiles(other.folder)).toEqual(files);
    expect(files.length).toBe(one.tally.partitions);
    for (const file of files) {
      expect([file, readFileSync(join(other.folder, file)).equals(readFileSync(join(one.folder, file)))]).toEqual([
        file,
        true,
      ]);
    }
  });

  it('has whole numbers and times without a zone, and no floats at all', async () => {
    const { folder } = await exportAll(await bookOfDemo());
    const types: Record<string, string> = {};
    for (const table of ['captures', 'columns', 'cash']) {
      for (const { column_name, column_type } of await askDuckDb(`DESCRIBE SELECT * FROM ${tableOf(folder, table)}`)) {
        types[`${table}.${column_name}`] = String(column_type);
      }
    }
    expect(Object.entries(types).filter(([, type]) => /FLOAT|DOUBLE|DECIMAL/.test(type))).toEqual([]);
    expect(types).toMatchObject({
      'captures.entry': 'BIGINT',
      'captures.received_at': 'TIMESTAMP',
      'captures.day': 'DATE',
      'columns.value': 'BIGINT',
      'columns.sold': 'BIGINT',
      'columns.price_plan': 'BIGINT',
      'columns.decimals': 'INTEGER',
      'columns.currency': 'VARCHAR',
      'columns.from_time': 'TIMESTAMP',
      'cash.cash_in': 'BIGINT',
      'cash.tube_difference': 'BIGINT',
    });
    const [file] = listFiles(join(folder, 'cash'));
    const value = readMetadata(join(folder, 'cash', file!)).schema.find(({ name }) => name === 'value');
    expect(value).toMatchObject({ type: 'INT64', repetition_type: 'OPTIONAL' });
  });

  it('can be read back by another reader, row by row, null as null', async () => {
    const { folder } = await exportAll(await bookOfDemo());
    const day = '2026-11-22';
    const rows = await readRows(join(folder, 'columns', `day=${day}`, 'part-0.parquet'));
    const truth = TRUTH.filter(({ to }) => bestTime(to)!.startsWith(day)).flatMap(makeSalesRows);
    const keyOf = (row: { readonly machine: unknown; readonly column: unknown }) => `${row.machine}/${row.column}`;
    const big = (value: number | null): bigint | null => (value === null ? null : BigInt(value));
    const sorted = <T extends { readonly machine: unknown; readonly column: unknown }>(all: readonly T[]) =>
      [...all].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
    expect(sorted(rows as { machine: unknown; column: unknown }[])).toEqual(
      sorted(truth).map(({ from, to, priceFrom, priceTo, pricePlan, flags, ...row }) => ({
        machine: row.machine,
        location: row.location,
        route: row.route,
        from_time: from && new Date(`${from}Z`),
        to_time: to && new Date(`${to}Z`),
        currency: row.currency,
        decimals: row.decimals,
        column: row.column,
        product: row.product,
        sold: big(row.sold),
        value: big(row.value),
        test: big(row.test),
        free: big(row.free),
        price_from: big(priceFrom),
        price_to: big(priceTo),
        price_plan: big(pricePlan),
        loss: big(row.loss),
        unexplained: big(row.unexplained),
        flags: flags.join(' '),
      })),
    );
  });

  it('has a row for each read, duplicates marked, and for each file without any', async () => {
    const book = await bookOfDemo();
    await book.recordCaptures([
      makeCapture('a photo', {
        kind: 'set-aside',
        name: "it's.jpg",
        day: '2026-11-23',
        reads: [],
        facts: { message: 'No capture.' },
      }),
      makeCapture('no day', { kind: 'set-aside', name: 'old.txt', reads: [] }),
    ]);
    const { folder, tally } = await exportAll(book);
    const { reads } = await book.tally();
    expect(tally.captures).toBe(reads + 2);
    const found = await askDuckDb(
      `SELECT kind, count(*)::INT AS n, count(number)::INT AS reads, count(duplicate_of_entry)::INT AS copies, count(day)::INT AS days
        FROM ${tableOf(folder, 'captures')} GROUP BY kind ORDER BY kind`,
    );
    let copies = 0;
    for await (const { duplicateOf } of book.reads()) if (duplicateOf !== null) copies++;
    expect(copies).toBeGreaterThan(0);
    expect(found).toEqual([
      { kind: 'capture-taken', n: reads, reads, copies, days: reads },
      { kind: 'set-aside', n: 2, reads: 0, copies: 0, days: 1 },
    ]);
    const [aside] = await askDuckDb(
      `SELECT file, message, verdict, sha256, day::VARCHAR AS day FROM ${tableOf(folder, 'captures')} WHERE file LIKE 'it%'`,
    );
    expect(aside).toEqual({
      file: "it's.jpg",
      message: 'No capture.',
      verdict: 'read-again',
      sha256: sha256Of('a photo'),
      day: '2026-11-23',
    });
  });
});

const read = (asset: string, vends: number, clock: string | null) =>
  Buffer.from(
    buildCapture([
      `ID1*SER${asset}*MODEL-A****${asset}`,
      'ID4*2*978*EUR',
      ...(clock === null
        ? []
        : [`ID5*${clock.slice(2, 10).replaceAll('-', '')}*${clock.slice(11, 16).replace(':', '')}`]),
      'PA1*11*150',
      `PA2*${vends}*${vends * 150}`,
    ]),
  );

async function record(book: BookStore, asset: string, vends: number, clock: string | null): Promise<void> {
  const bytes = read(asset, vends, clock);
  const reads = [makeRead(`${asset} ${vends}`, { machine: `asset ${asset}`, asset, clock })];
  const changes = { bytes, sha256: sha256Of(bytes), size: bytes.length, name: `${asset}-${vends}.dex`, reads };
  await book.recordCaptures([makeCapture('x', changes)]);
}

describe('machines', () => {
  it('have one name in all tables, also where the roster is not given', async () => {
    const book = await bookOfDemo();
    await meetRoster(book, ROSTER);
    const { folder } = await exportAll(book, { take: { roster: new Roster() } });
    const namesOf = (table: string) =>
      askDuckDb(`SELECT DISTINCT machine FROM ${tableOf(folder, table)} ORDER BY machine`);
    const names = await namesOf('captures');
    expect(names.map(({ machine }) => machine)).toContain('V101');
    expect(await namesOf('columns')).toEqual(names);
    expect(await namesOf('cash')).toEqual(names);
    const [place] = await askDuckDb(`SELECT DISTINCT location FROM ${tableOf(folder, 'cash')} WHERE machine = 'V101'`);
    expect(place).toEqual({ location: 'Library foyer' });
  });

  it('have the name that the book gave them where it remembers no roster', async () => {
    const { folder } = await exportAll(await bookOfDemo(), { take: { roster: new Roster() } });
    const names = await askDuckDb(
      `SELECT machine FROM ${tableOf(folder, 'cash')} EXCEPT SELECT machine FROM ${tableOf(folder, 'captures')}`,
    );
    expect(names).toEqual([]);
  });
});

describe('reads without a time', () => {
  const take = { roster: new Roster() };

  it('go into the partition for null, and count once', async () => {
    const book = await openBook();
    await record(book, 'A1', 10, '2026-11-20T10:00:00');
    await record(book, 'A1', 14, null);
    await record(book, 'A1', 20, '2026-11-22T10:00:00');
    for (const isWorkedOut of [false, true]) {
      if (isWorkedOut) await workOutStale(book, { take });
      const { folder } = await exportAll(book, { take });
      expect(listFiles(folder)).toContain('columns/day=__HIVE_DEFAULT_PARTITION__/part-0.parquet');
      const found = await askDuckDb(
        `SELECT day::VARCHAR AS day, machine, sum(sold)::INT AS sold FROM ${tableOf(folder, 'columns')} GROUP BY ALL ORDER BY day`,
      );
      expect(found).toEqual([
        { day: '2026-11-22', machine: 'asset A1', sold: 6 },
        { day: null, machine: 'asset A1', sold: 4 },
      ]);
    }
  });
});

describe('a span with one end', () => {
  const take = { roster: new Roster() };

  it('has all days on its side of it, whatever order they came in, and nothing without a time', async () => {
    const book = await openBook();
    for (const day of ['22', '20', '21']) await record(book, 'A1', Number(day), `2026-11-${day}T10:00:00`);
    await book.recordCaptures([
      makeCapture('z', { reads: [makeRead('z', { machine: null, clock: null })] }),
      makeCapture('q', { kind: 'set-aside', reads: [], day: '2026-11-20' }),
    ]);
    const daysOf = async (changes: Partial<ExportOptions>): Promise<string[]> => {
      const { folder } = await exportAll(book, { take, ...changes });
      return listFiles(join(folder, 'captures')).map((file) => file.slice('day='.length, 'day=2026-11-20'.length));
    };
    expect(await daysOf({ to: '2026-11-21' })).toEqual(['2026-11-20', '2026-11-21']);
    expect(await daysOf({ from: '2026-11-21' })).toEqual(['2026-11-21', '2026-11-22']);
    expect(await daysOf({})).toEqual(['2026-11-20', '2026-11-21', '2026-11-22', '__HIVE_DEF']);
  });
});

describe('a folder that has an export already', () => {
  const take = { roster: new Roster() };
  const makeBook = async () => {
    const book = await openBook();
    for (const [i, day] of ['20', '21', '22', '23'].entries())
      await record(book, 'A1', 10 + i, `2026-11-${day}T10:00:00`);
    await record(book, 'A2', 5, null);
    return book;
  };

  it('keeps the days that are not asked for, and has others replaced whole', async () => {
    const book = await makeBook();
    const { folder } = await exportAll(book, { take });
    const before = listFiles(folder);
    const timeOf = (file: string): number => statSync(join(folder, file)).mtimeMs;
    const times = before.map(timeOf);
    await record(book, 'A3', 7, '2026-11-21T09:00:00');
    await record(book, 'A3', 9, '2026-11-21T12:00:00');
    const { tally } = await exportAll(book, { take, from: '2026-11-21', to: '2026-11-22' }, folder);
    expect(tally).toEqual({ captures: 4, columns: 3, cash: 3, partitions: 6 });
    expect(listFiles(folder)).toEqual(before);
    const isReplaced = before.map((file, i) => timeOf(file) !== times[i]);
    expect(isReplaced).toEqual(before.map((file) => /day=2026-11-2[12]/.test(file)));
  });

  it('loses the days of the span of which nothing is left, and nothing else that lies there', async () => {
    const book = await makeBook();
    const folder = temporaryFolder();
    const stale = join(folder, 'cash', 'day=2026-10-01');
    for (const path of [stale, join(folder, 'cash', 'notes'), join(folder, 'other')])
      mkdirSync(path, { recursive: true });
    writeFileSync(join(stale, 'part-0.parquet'), 'old');
    writeFileSync(join(folder, 'cash', 'notes', 'a.parquet'), 'x');
    await exportAll(book, { take, from: '2026-11-01' }, folder);
    expect(listFiles(folder)).toContain('cash/day=2026-10-01/part-0.parquet');
    await exportAll(book, { take }, folder);
    const files = listFiles(folder);
    expect(files).not.toContain('cash/day=2026-10-01/part-0.parquet');
    expect(files).toContain('cash/notes/a.parquet');
  });

  it('is left as it was when something goes wrong on the way', async () => {
    const book = await makeBook();
    const { folder } = await exportAll(book, { take });
    const before = listFiles(folder).map((file) => [file, readFileSync(join(folder, file)).toString('base64')]);
    await record(book, 'A1', 30, '2026-11-24T10:00:00');
    let stretches = 0;
    const onStretch = (): void => {
      stretches++;
      if (stretches === 3) throw new RangeError('the power went');
    };
    await expect(exportAll(book, { take, readsAtOnce: 1, onStretch }, folder)).rejects.toThrow('the power went');
    const after = listFiles(folder).map((file) => [file, readFileSync(join(folder, file)).toString('base64')]);
    expect(after).toEqual(before);
  });

  it('is refused where other files would count beside the new ones', async () => {
    const book = await makeBook();
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'cash', 'day=2026-11-21'), { recursive: true });
    writeFileSync(join(folder, 'cash', 'day=2026-11-21', 'mine.parquet'), 'x');
    await expect(exportAll(book, { take }, folder)).rejects.toThrow(/mine\.parquet was not written by this program/);
    expect(listFiles(folder)).toEqual(['cash/day=2026-11-21/mine.parquet']);
    await exportAll(book, { take, from: '2026-11-22' }, folder);
    expect(listFiles(folder)).toContain('cash/day=2026-11-22/part-0.parquet');
  });

  it('says that some days may be new when something stands in the way at the very end', async () => {
    const book = await makeBook();
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'columns', 'day=2026-11-22', 'part-0.parquet'), { recursive: true });
    const failed = exportAll(book, { take }, folder);
    await expect(failed).rejects.toThrow(/Some days in it are new and others as they were/);
    expect(listFiles(folder).filter((file) => file.startsWith('.'))).toEqual([]);
  });

  it('is not touched where a table of it is no folder', async () => {
    const book = await makeBook();
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'cash'), 'mine');
    await expect(exportAll(book, { take }, folder)).rejects.toThrow(
      /a part of its path is no folder\. What was in it is/,
    );
    expect(listFiles(folder)).toEqual(['cash']);
  });
});
