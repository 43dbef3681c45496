import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BookVerificationJson } from '../../src/book/index.js';
import { type Outcome, ROOT, runProgram } from '../cli/run-program.js';

// Somebody who has the file changes one column of one row with plain SQL, all guards in place. Columns are taken from the
// database itself, so that a new one cannot be forgotten.

const DEMO = join(ROOT, 'fixtures/demo');
const DAY = '2026-11-23';
const OFFICE = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];

let cwd: string;
const program = (...argv: string[]): Promise<Outcome> => runProgram(argv, { cwd });

/** The demo's two rounds in a book: the first closed, the second counted. */
beforeAll(async () => {
  cwd = mkdtempSync(join(tmpdir(), 'coilbook-altered-'));
  for (const sheet of ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'])
    copyFileSync(join(DEMO, sheet), join(cwd, sheet));
  for (const name of readdirSync(join(DEMO, 'captures'))) {
    const folder = join(cwd, name < '2026-11-21' ? 'd1' : 'd2');
    mkdirSync(folder, { recursive: true });
    copyFileSync(join(DEMO, 'captures', name), join(folder, name));
  }
  await program('day', 'd1', ...OFFICE, '--day', '2026-11-20', '--book', 'good.db');
  await program('day', 'd2', ...OFFICE, '--day', DAY, '--counts', 'counts.csv', '--book', 'good.db');
  await program('settle', '--book', 'good.db', ...OFFICE, '--day', DAY, '--close', '--by', 'Kim');
});

afterAll(() => rmSync(cwd, { recursive: true }));

interface Column {
  readonly table: string;
  readonly name: string;
  readonly type: string;
}

function listColumns(): Column[] {
  const database = new Database(join(cwd, 'good.db'), { readonly: true });
  try {
    const tables = database.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all() as string[];
    return tables.flatMap((table) =>
      (database.pragma(`table_info(${table})`) as Column[]).map(({ name, type }) => ({ table, name, type })),
    );
  } finally {
    database.close();
  }
}

/** Another value of the same kind, as SQL. */
function otherValue({ name, type }: Column, value: unknown): unknown {
  if (value === null) return type === 'TEXT' ? 'B9999' : type === 'BLOB' ? Buffer.from([1]) : 1;
  if (value instanceof Uint8Array)
    return Buffer.from(value.map((byte, i) => (i === value.length - 1 ? byte ^ 1 : byte)));
  if (typeof value === 'number') return value + 1;
  const text = String(value);
  // A time stays one, a machine becomes another that there is.
  if (/^\d{4}-\d\d-\d\dT/.test(text)) return text.replace(/^(\d{4}-\d\d-)\d\d/, '$128');
  if (name === 'machine' || name === 'key' || name === 'subject')
    return text.includes('V107') ? text.replace('V107', 'V101') : text.replace(/V10\d/, 'V107');
  if (text.startsWith('{') || text.startsWith('['))
    return text.replace(/\d(?=\D*$)/, (digit) => String((Number(digit) + 1) % 10));
  return text.replace(/.$/, (last) => (last === '1' ? '2' : '1'));
}

/** Change a column in every row that allows it, one book a row; gives what became of each. */
function alter(column: Column, place: 'first' | 'last'): 'refused' | 'changed' | 'same' {
  copyFileSync(join(cwd, 'good.db'), join(cwd, 'bad.db'));
  const database = new Database(join(cwd, 'bad.db'));
  const { table, name } = column;
  const isKeyed = table === 'read' || table === 'step';
  // Of reads the service read of V106 of the second round, or the last one that was taken in.
  const order = place === 'first' ? 'ASC' : 'DESC';
  const where =
    table === 'read' && place === 'first'
      ? "WHERE machine = 'machine V106' AND reason = 'service' AND at >= '2026-11-23'"
      : '';
  try {
    const keys = (database.pragma(`table_info(${table})`) as { name: string; pk: number }[]).filter(({ pk }) => pk > 0);
    const by = keys.map((key) => key.name);
    const row = database
      .prepare(`SELECT * FROM ${table} ${where} ORDER BY ${isKeyed ? 'entry' : by[0]} ${order} LIMIT 1`)
      .get() as Record<string, unknown> | undefined;
    if (row === undefined) return 'same';
    const value = otherValue(column, row[name]);
    const set = database.prepare(
      `UPDATE ${table} SET ${name} = ? WHERE ${by.map((key) => `${key} = ?`).join(' AND ')}`,
    );
    return set.run(value, ...by.map((key) => row[key])).changes === 0 ? 'same' : 'changed';
  } catch {
    return 'refused';
  } finally {
    database.close();
  }
}

/** What a person is told of the second round, all of it. */
async function sayAll(book: string): Promise<string> {
  const settled = await program('settle', '--book', book, ...OFFICE, '--day', DAY, '--json');
  const day = await program('day', '--book', book, ...OFFICE, '--day', DAY, '--json', '--no-tables');
  return (settled.out + settled.err + day.out + day.err).replaceAll(book, 'the book');
}

/** What the book remembers so that it need not be asked or looked for again: no figure of a capture rests on it. */
const REMEMBERED: ReadonlySet<string> = new Set(['machine', 'note', 'seen_file', 'sqlite_sequence']);

describe('a column that somebody changes behind the book’s back', () => {
  it('is refused, or named by verifying the book: every column of every table but those of what is remembered', async () => {
    const outcomes: string[] = [];
    let changed = 0;
    const good = await sayAll('good.db');
    for (const column of listColumns().filter(({ table }) => !REMEMBERED.has(table))) {
      for (const place of ['first', 'last'] as const) {
        if (alter(column, place) !== 'changed') continue;
        changed++;
        const { out } = await program('book', 'verify', '--deep', '--book', 'bad.db', '--json');
        const { verdict } = JSON.parse(out) as { verdict: string };
        // Two columns say nothing by themselves: the number of a copy's read without its entry, and by what a layout is found.
        if (verdict === 'whole' && (await sayAll('bad.db')) !== good)
          outcomes.push(`${column.table}.${column.name} (${place})`);
      }
    }
    expect(outcomes).toEqual([]);
    // What the guards leave to be changed: above all what is worked out, and what reads are matched by.
    expect(changed).toBeGreaterThan(40);
  }, 300_000);

  it.each(['machine', 'received_at', 'reason', 'bag', 'at'])(
    'of what a read is matched by (%s) is named without working anything out, and put back',
    async (name) => {
      expect(alter({ table: 'read', name, type: 'TEXT' }, 'first')).toBe('changed');
      const verified = await program('book', 'verify', '--book', 'bad.db', '--json');
      const { verdict, matching } = JSON.parse(verified.out) as BookVerificationJson;
      expect(verdict).toBe('doubtful');
      expect(matching!.differences.map(({ what }) => what)).toContain(name === 'at' ? 'time' : name.replace('_', '-'));
      const back = await program('book', 'verify', '--put-back', '--book', 'bad.db');
      expect(back.out).toMatch(/^The book is whole/);
      expect(back.err).toContain('put back');
    },
    60_000,
  );

  it('changes no figure in silence: what is said is as before, or the command says that the book was changed', async () => {
    const good = await sayAll('good.db');
    const wrong: string[] = [];
    for (const column of listColumns().filter(({ table }) => ['read', 'step', 'layout', 'blob'].includes(table))) {
      if (alter(column, 'first') !== 'changed') continue;
      const said = await sayAll('bad.db');
      if (said !== good && !/changed by another program|damaged|Verify the book|not what was recorded/.test(said))
        wrong.push(`${column.table}.${column.name}`);
    }
    expect(wrong).toEqual([]);
  }, 300_000);

  it('does not end a day’s run: reads go back where entries say, and it says so', async () => {
    expect(alter({ table: 'read', name: 'machine', type: 'TEXT' }, 'first')).toBe('changed');
    const run = await program('day', 'd2', ...OFFICE, '--day', '2026-11-24', '--book', 'bad.db');
    expect(run.status).toBe(2);
    expect(run.err).toContain(
      '1 read was kept as of another machine, time or visit than entries say. That is put back.',
    );
    const { out } = await program('book', 'verify', '--deep', '--book', 'bad.db', '--json');
    expect((JSON.parse(out) as BookVerificationJson).verdict).toBe('whole');
  }, 60_000);
});
