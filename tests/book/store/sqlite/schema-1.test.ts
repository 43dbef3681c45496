import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { GUARD_NAMES, SCHEMA_1 } from '../../../../src/book/store/sqlite/schema-1.js';
import { makeCapture, makeCount, makeRead, openBook, temporaryPath, withDatabase } from '../temporary-book.js';

/** A book with an entry of each sort and a file in two parts, closed. */
async function makeFilledBook(): Promise<string> {
  const path = temporaryPath();
  const book = await openBook(path);
  const whole = makeCapture('ab');
  const parts = [Buffer.from('a'), Buffer.from('b')];
  await book.recordCaptures([makeCapture('x'), { ...whole, bytes: parts }]);
  await book.recordEntries([makeCount('bag 1')]);
  return path;
}

const RECORDED = ['entry', 'node', 'blob', 'blob_part', 'read'];

describe('the guards of what is recorded', () => {
  it.each(RECORDED)('refuse to remove from %s', async (table) => {
    await withDatabase(await makeFilledBook(), (database) => {
      expect(() => database.exec(`DELETE FROM ${table}`)).toThrow('what is recorded is never changed');
      expect(database.prepare(`SELECT count(*) FROM ${table}`).pluck().get()).toBeGreaterThan(0);
    });
  });

  it.each([
    ['entry', ['seq', 'kind', 'recorded_at', 'subject', 'day', 'key', 'refers_to', 'body']],
    ['node', ['level', 'idx', 'hash']],
    ['blob', ['entry', 'sha256', 'size', 'packing', 'bytes']],
    ['blob_part', ['entry', 'part', 'packing', 'bytes']],
    ['read', ['entry', 'number', 'asset', 'serial', 'board', 'clock', 'content']],
  ])('refuse to change %s, column by column', async (table, columns) => {
    await withDatabase(await makeFilledBook(), (database) => {
      for (const column of columns) {
        const change = `UPDATE ${table} SET ${column} = ${column}`;
        expect(() => database.exec(change), change).toThrow('what is recorded is never changed');
      }
    });
  });

  // SQLite documentation, "ON CONFLICT clause": REPLACE fires delete triggers only if recursive triggers are on.
  it.each(['ON', 'OFF'])('refuse to put a row in the place of another, with recursive triggers %s', async (setting) => {
    await withDatabase(await makeFilledBook(), (database) => {
      database.pragma(`recursive_triggers = ${setting}`);
      for (const table of RECORDED) {
        const columns = table === 'read' ? 'entry, number, asset, serial, board, clock, content, verdict' : '*';
        const names = columns === '*' ? '' : `(${columns})`;
        const replace = `INSERT OR REPLACE INTO ${table} ${names} SELECT ${columns} FROM ${table} LIMIT 1`;
        expect(() => database.exec(replace), table).toThrow('what is recorded is never changed');
      }
    });
  });

  it('refuse the same bytes under another entry, and an entry out of its turn', async () => {
    await withDatabase(await makeFilledBook(), (database) => {
      const again = 'INSERT INTO blob SELECT 99, sha256, size, packing, bytes FROM blob LIMIT 1';
      expect(() => database.exec(again)).toThrow('what is recorded is never changed');
      for (const seq of [-1, 2, 4]) {
        const insert = `INSERT INTO entry (seq, kind, recorded_at, body) VALUES (${seq}, 'adjustment', '', '{}')`;
        expect(() => database.exec(insert)).toThrow('what is recorded is never changed');
      }
    });
  });

  it('let change what is worked out of a read', async () => {
    const path = await makeFilledBook();
    await withDatabase(path, (database) => {
      database.exec(`UPDATE read SET machine = 'machine M-2', verdict = 'doubtful', duplicate_entry = 0, era = 1`);
      expect(database.prepare('SELECT DISTINCT machine FROM read').pluck().all()).toEqual(['machine M-2']);
    });
  });

  it('are all there in a new book, and are missed when they are not', async () => {
    const path = await makeFilledBook();
    expect((await (await openBook(path)).guards()).missingGuards).toEqual([]);
    await withDatabase(path, (database) => database.exec('DROP TRIGGER entry_is_not_changed'));
    expect((await (await openBook(path)).guards()).missingGuards).toEqual(['entry_is_not_changed']);
    expect(GUARD_NAMES).toContain('entry_is_not_changed');
  });
});

describe('the tables', () => {
  it('are strict, and refer to entries that are there', async () => {
    const database = new Database(':memory:');
    database.exec(SCHEMA_1);
    const tables = database.prepare(`SELECT name, strict FROM pragma_table_list WHERE schema = 'main'`).all();
    expect(tables).toContainEqual({ name: 'entry', strict: 1 });
    expect(tables.filter((table) => (table as { strict: number }).strict === 0)).toEqual([
      { name: 'sqlite_schema', strict: 0 },
    ]);
    database.pragma('foreign_keys = ON');
    const orphan = `INSERT INTO read (entry, number, content, verdict) VALUES (7, 0, x'00', 'sound')`;
    expect(() => database.exec(orphan)).toThrow('FOREIGN KEY');
    database.close();
  });

  it('keep everything that a text can hold', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    const wild = `'; DROP TABLE entry; -- \u0000\n\u001b[2J\u{1f600}`;
    await book.recordCaptures([
      makeCapture('x', { name: wild, reads: [makeRead('x', { asset: wild, machine: wild })] }),
    ]);
    const [read] = await book.readsOf(wild);
    expect(read?.asset).toBe(wild);
    expect(JSON.parse((await book.entry(0))!.body)).toMatchObject({ file: wild });
  });
});
