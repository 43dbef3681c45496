import {
  appendFileSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { DayJson } from '../../src/report/index.js';
import { captureAt } from '../book/run/take-night.js';
import { withDatabase } from '../book/store/temporary-book.js';
import { makeFolder } from '../io/temporary-folder.js';
import { csvOf, expectReadable, jsonOf, type Outcome, ROOT, runProgram, SHEETS } from './run-program.js';

const capture = (asset: string, day: number, vends: number): Uint8Array =>
  captureAt(`2026-11-0${day} 20:00`, vends, { ID1: `ID1*S-${asset}*MODEL-A****${asset}`, CB1: `CB1*B-${asset}` });
const MACHINES = 'machine,asset,location,currency\nM1,A1,Hall,EUR\nM2,A2,Foyer,EUR\n';
const SHEET = ['--machines', 'machines.csv'];

const day = (cwd: string, date: string, ...argv: string[]): Promise<Outcome> =>
  runProgram(['day', ...argv, ...SHEET, '--day', date], { cwd });

const headOf = (out: string): readonly string[] => out.split('\n').filter((line) => /^ {2}(size|root) /.test(line));
const filesOf = (folder: string): Record<string, string> =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]));

/** The same without the head of the book that they were made from. */
const withoutHead = (files: Record<string, string>): string =>
  JSON.stringify(files)
    .replaceAll(/[0-9a-f]{64}/g, 'ROOT')
    .replaceAll(/size\W+\d+|\d+ entries/g, 'SIZE');

const OUT = ['attention.csv', 'cash.csv', 'day.json', 'made-from.json', 'refill.csv', 'sales.csv', 'settlement.csv'];

describe('day', () => {
  it('takes three nights in, and tells the interval of a late capture in one table', async () => {
    const cwd = makeFolder({
      'machines.csv': MACHINES,
      '1/a.dex': capture('A1', 1, 100),
      '1/b.dex': capture('A2', 1, 10),
    });
    const first = await day(cwd, '2026-11-01', '1', '--out', 'out1');
    expectReadable(first);
    expect([first.status, first.lines[0]]).toEqual([
      0,
      'Nothing to look at; 2 of 2 machines read; 2 new files taken in.',
    ]);
    writeFileSync(join(cwd, '1', 'c.dex'), capture('A1', 3, 130));
    const second = await day(cwd, '2026-11-03', '1', '--out', 'out3');
    expect(second.lines[0]).toBe('1 thing to look at; 1 of 2 machines read; 1 new file taken in.');
    // A machine of the roster of which nothing came.
    expect(second.out).toContain('M2, Foyer');
    expect(second.status).toBe(1);
    writeFileSync(join(cwd, '1', 'late.dex'), capture('A1', 2, 112));
    await day(cwd, '2026-11-04', '1', '--out', 'out4');
    const cash = csvOf({ ...first, out: readFileSync(join(cwd, 'out4', 'cash.csv'), 'utf8') });
    // 1.50 each, by hand.
    expect(cash.map(({ machine, sold, value }) => [machine, sold, value])).toEqual([['M1', '12', '18.00']]);
    expect(readdirSync(join(cwd, 'out4'))).toEqual(expect.arrayContaining(OUT));
    // The day before had all of it; made again it has what came after the late capture, so that the days add up.
    const soldIn = (folder: string) =>
      csvOf({ ...first, out: readFileSync(join(cwd, folder, 'cash.csv'), 'utf8') }).map(({ sold, value }) => [
        sold,
        value,
      ]);
    expect(soldIn('out3')).toEqual([['30', '45.00']]);
    await day(cwd, '2026-11-03', '--out', 'again3');
    expect(soldIn('again3')).toEqual([['18', '27.00']]);
  });

  it('changes nothing on a second run, and makes the files again only when something is not as it was', async () => {
    const cwd = makeFolder({
      'machines.csv': MACHINES,
      'in/a.dex': capture('A1', 1, 100),
      'in/junk.txt': 'no capture',
    });
    const run = () => day(cwd, '2026-11-01', 'in', '--out', 'out');
    const first = await run();
    expect(first.status).toBe(2);
    expect(first.out).toContain('1 set aside');
    const written = filesOf(join(cwd, 'out'));
    writeFileSync(join(cwd, 'out', 'sales.csv'), 'left alone');
    const second = await run();
    expectReadable(second);
    expect(second.lines[0]).toBe('Nothing new. 2 things to look at; 1 of 2 machines read.');
    expect([second.status, headOf(second.out)]).toEqual([first.status, headOf(first.out)]);
    expect(readFileSync(join(cwd, 'out', 'sales.csv'), 'utf8')).toBe('left alone');
    // Another sheet gives another day.
    appendFileSync(join(cwd, 'machines.csv'), 'M3,A3,Yard,EUR\n');
    expect((await run()).lines[0]).toBe('3 things to look at; 1 of 3 machines read; 0 new files taken in.');
    writeFileSync(join(cwd, 'machines.csv'), MACHINES);
    await run();
    // The book has what was told of the roster meanwhile, and files name the book's head.
    const now = filesOf(join(cwd, 'out'));
    expect(withoutHead(now)).toEqual(withoutHead(written));
    rmSync(join(cwd, 'out', 'made-from.json'));
    await run();
    expect(filesOf(join(cwd, 'out'))).toEqual(now);
  });

  it('prints the day as one JSON object, and makes it again from the book alone', async () => {
    const cwd = makeFolder({
      'machines.csv': MACHINES,
      'in/a.dex': capture('A1', 1, 100),
      'in/b.dex': capture('A9', 1, 9),
    });
    const outcome = await day(cwd, '2026-11-01', 'in', '--json', '--out', 'out');
    const [first] = jsonOf<DayJson>(outcome, 'day');
    expect(outcome.out).toBe(readFileSync(join(cwd, 'out', 'day.json'), 'utf8'));
    expect(first!.machines).toEqual({ expected: 2, read: 1, unknown: 1 });
    expect(first!.attention.map(({ cause }) => cause).sort()).toEqual(['not-read', 'unknown-machine']);
    rmSync(join(cwd, 'in'), { recursive: true });
    expect((await day(cwd, '2026-11-01', '--json')).out).toBe(outcome.out);
    // The book remembers the roster.
    const alone = await runProgram(['day', '--day', '2026-11-01', '--json'], { cwd });
    expect(alone.out).toBe(outcome.out);
    const text = await runProgram(['day', '--day', '2026-11-01'], { cwd });
    expect(text.lines[0]).toBe('2 things to look at; 1 of 2 machines read.');
  });

  it('takes neither the sheets, nor the book, nor what it wrote for captures', async () => {
    const cwd = makeFolder({
      'machines.csv': MACHINES,
      'counts.csv': 'machine,visited_at,coins\n',
      'a.dex': capture('A1', 1, 5),
    });
    const run = () => day(cwd, '2026-11-01', '.', '--out', 'out', '--counts', 'counts.csv');
    expect((await run()).out).toContain('Looked at 1 file: 1 taken in');
    expect((await run()).out).toContain('Looked at 1 file: 1 in the book already.');
  });

  it('settles the rounds of the day where bags were counted', async () => {
    const cwd = makeFolder();
    const sheets = SHEETS.map((arg) => (arg.startsWith('--') ? arg : join(ROOT, arg)));
    const files = [join(ROOT, 'fixtures/demo/captures'), '--counts', join(ROOT, 'fixtures/demo/counts.csv')];
    const outcome = await runProgram(['day', ...files, ...sheets, '--day', '2026-11-23', '--out', 'out'], { cwd });
    expectReadable(outcome);
    const rows = csvOf({ ...outcome, out: readFileSync(join(cwd, 'out', 'settlement.csv'), 'utf8') });
    const short = rows.find(({ machine }) => machine === 'V106');
    expect(short).toMatchObject({ state: 'short', over_short_total: '-5.00' });
    // A bag without a capture: somebody has to act.
    expect(outcome.status).toBe(2);
  });

  it('says what could not be read, and takes in everything else', async () => {
    const cwd = makeFolder({ 'machines.csv': MACHINES, 'in/a.dex': capture('A1', 1, 100) });
    const outcome = await day(cwd, '2026-11-01', 'gone', 'in');
    expect(outcome.status).toBe(66);
    expect(outcome.out).toContain('1 that could not be read');
    expect(outcome.out.replaceAll(/\s+/g, ' ')).toContain('gone could not be read: there is no such file or folder');
  });

  it('shows names that steer a terminal as text', async () => {
    const name = 'in/\u001b[31mred\nline\u202e.dex';
    const cwd = makeFolder({ 'machines.csv': MACHINES, [name]: 'nothing', 'in/x.dex': capture('A\u001b[2J', 1, 4) });
    const outcome = await day(cwd, '2026-11-01', 'in', '--out', 'out\u001b[1m');
    expectReadable(outcome);
    expect(outcome.lines[0]).toMatch(/^\d+ things to look at/);
    const json = await day(cwd, '2026-11-01', '--json');
    expect(json.out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });

  it('refuses wrong use', async () => {
    const cwd = makeFolder({ 'machines.csv': MACHINES });
    const refused = async (...argv: string[]) => {
      const { status, err } = await day(cwd, '2026-11-01', ...argv);
      expect(status).toBe(64);
      return err;
    };
    expect(await refused('in', '--csv')).toContain('--out DIR');
    expect(await refused('in', '--tolerance', '1')).toContain('--counts is missing');
    expect(await refused('in', '--out', './in/')).toContain('name another folder');
    expect(await refused('in', '--ignore-hand-moves')).toContain('--counts is missing');
    expect(existsSync(join(cwd, 'coilbook.db'))).toBe(false);
  });
});

describe('day with a book that can not be used', () => {
  const withBook = async () => {
    const cwd = makeFolder({ 'machines.csv': MACHINES, 'in/a.dex': capture('A1', 1, 100) });
    await day(cwd, '2026-11-01', 'in');
    return { cwd, book: join(cwd, 'coilbook.db') };
  };
  const refusal = async (cwd: string, ...argv: string[]) => {
    const { status, out, err } = await day(cwd, '2026-11-02', ...argv);
    expect([status, out]).toEqual([66, '']);
    expect(err.split('\n')).toHaveLength(2);
    return err;
  };

  it('says that there is none to make the day from', async () => {
    const cwd = makeFolder({ 'machines.csv': MACHINES });
    expect(await refusal(cwd)).toMatch(/coilbook\.db is not there/);
    expect(await refusal(cwd, 'in', '--book', 'no/such/folder.db')).toMatch(/could not be (?:opened|made)/);
  });

  it('leaves a book of a later version, or another file, as it is', async () => {
    const { cwd, book } = await withBook();
    await withDatabase(book, (database) => database.pragma('user_version = 99'));
    expect(await refusal(cwd, 'in')).toMatch(/use the later program/);
    expect(await refusal(cwd, 'in', '--book', 'machines.csv')).toMatch(/is not a book/);
    expect(readFileSync(join(cwd, 'machines.csv'), 'utf8')).toBe(MACHINES);
  });

  it('says that a damaged book is damaged, and writes no files', async () => {
    const { cwd, book } = await withBook();
    await withDatabase(book, (database) => {
      database.pragma('journal_mode = DELETE');
      database.exec('DROP TRIGGER blob_is_not_changed');
      database.exec(`UPDATE blob SET bytes = x'00'`);
    });
    expect(await refusal(cwd, '--out', 'out')).toMatch(/damaged|Verify the book/);
    mkdirSync(join(cwd, 'in2'));
    copyFileSync(join(cwd, 'in', 'a.dex'), join(cwd, 'in2', 'b.dex'));
    expect(existsSync(join(cwd, 'out')) ? readdirSync(join(cwd, 'out')) : []).toEqual([]);
  });
});
