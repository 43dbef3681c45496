import { describe, expect, it } from 'vitest';
import { makeCount, openBook, temporaryPath, withDatabase } from '../temporary-book.js';

const NONE = { missingGuards: [], alteredGuards: [], unknownGuards: [] };

/** How a book's guards are after something was done to its database. */
async function guardsAfter(...statements: readonly string[]) {
  const path = temporaryPath();
  await (await openBook(path)).recordEntries([makeCount('bag 1')]);
  await withDatabase(path, (database) => {
    // Without it SQLite keeps its own schema from being written to, as a thief would not.
    database.unsafeMode(true);
    database.pragma('writable_schema = ON');
    for (const statement of statements) database.exec(statement);
  });
  return (await openBook(path, { isReadOnly: true })).guards();
}

describe('compareSchema', () => {
  it('has nothing to say of a book that was left alone, or looked over by its database', async () => {
    expect(await guardsAfter('SELECT 1')).toEqual(NONE);
    expect(await guardsAfter('ANALYZE', 'VACUUM', 'REINDEX')).toEqual(NONE);
  });

  it('tells a guard that was taken out', async () => {
    expect(await guardsAfter('DROP TRIGGER entry_is_not_changed')).toEqual({
      ...NONE,
      missingGuards: ['entry_is_not_changed'],
    });
  });

  it.each([
    ['an empty one', 'CREATE TRIGGER blob_is_not_changed BEFORE UPDATE ON blob BEGIN SELECT 1; END'],
    [
      'one that never fires',
      "CREATE TRIGGER blob_is_not_changed BEFORE UPDATE ON blob WHEN 0 BEGIN SELECT raise(ABORT, 'what is recorded is never changed'); END",
    ],
    [
      'one on another table',
      "CREATE TRIGGER blob_is_not_changed BEFORE UPDATE ON seen_file BEGIN SELECT raise(ABORT, 'what is recorded is never changed'); END",
    ],
  ])('tells a guard in whose place is %s of the same name', async (_, create) => {
    expect(await guardsAfter('DROP TRIGGER blob_is_not_changed', create)).toEqual({
      ...NONE,
      alteredGuards: ['blob_is_not_changed'],
    });
  });

  it('tells one whose text was changed where the database keeps it', async () => {
    const change = `UPDATE sqlite_schema SET sql = replace(sql, 'ON entry', 'ON entry WHEN 0') WHERE name = 'entry_is_not_removed'`;
    expect(await guardsAfter(change)).toEqual({ ...NONE, alteredGuards: ['entry_is_not_removed'] });
  });

  it('names a trigger, a view, a table and an index that no book has', async () => {
    const added = await guardsAfter(
      'CREATE TRIGGER quiet AFTER INSERT ON read BEGIN SELECT 1; END',
      'CREATE VIEW shown AS SELECT 1',
      'CREATE TABLE aside (a)',
      'CREATE INDEX aside_by_a ON aside (a)',
    );
    expect(added.missingGuards).toEqual([]);
    expect([...added.unknownGuards].sort()).toEqual(['index aside_by_a', 'quiet', 'table aside', 'view shown']);
  });

  it('tells an index that was made to miss rows, and a table without its rules', async () => {
    const index = await guardsAfter(
      'DROP INDEX entry_by_key',
      "CREATE UNIQUE INDEX entry_by_key ON entry (key) WHERE key = ''",
    );
    expect(index).toEqual({ ...NONE, alteredGuards: ['index entry_by_key'] });
    const rules = await guardsAfter(
      "UPDATE sqlite_schema SET sql = replace(sql, 'CHECK (refers_to < seq)', '') WHERE name = 'entry'",
    );
    expect(rules).toEqual({ ...NONE, alteredGuards: ['table entry'] });
  });
});
