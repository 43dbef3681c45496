import type { GuardState } from '../book-store.js';
import { type Connection, loadSqlite } from './connection.js';
import { MIGRATIONS } from './migrations.js';

interface SchemaObject {
  readonly type: string;
  readonly name: string;
  readonly sql: string;
}

// What SQLite keeps for itself (`sqlite_…`: indexes of keys, statistics) has no text of its own that could be held against another.
const OBJECTS = `SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'`;

/**
 * Hold all that a book's database is made of (triggers, tables with their rules, indexes, views) against what this program
 * makes, text by text: a trigger that was replaced by an empty one of the same name guards nothing.
 */
export async function compareSchema(connection: Connection): Promise<GuardState> {
  const expected = await makeExpected();
  const there = listObjects(connection);
  const state = { missing: [] as string[], altered: [] as string[], unknown: [] as string[] };
  for (const [key, sql] of expected) {
    const found = there.get(key);
    if (found === undefined) state.missing.push(key);
    else if (found !== sql) state.altered.push(key);
  }
  for (const key of there.keys()) if (!expected.has(key)) state.unknown.push(key);
  return { missingGuards: state.missing, alteredGuards: state.altered, unknownGuards: state.unknown };
}

/** The objects of a book that was just made, in memory: what the migrations lead to. */
async function makeExpected(): Promise<ReadonlyMap<string, string>> {
  const library = await loadSqlite();
  const connection = new library(':memory:');
  try {
    for (const statements of MIGRATIONS) connection.exec(statements);
    return listObjects(connection);
  } finally {
    connection.close();
  }
}

/** Texts by what they make. Blanks and quotes may differ between releases of SQLite, which rewrites texts where a table is altered. */
function listObjects(connection: Connection): ReadonlyMap<string, string> {
  const objects = connection.prepare<[], SchemaObject>(OBJECTS).all();
  return new Map(
    objects.map(({ type, name, sql }) => [
      type === 'trigger' ? name : `${type} ${name}`,
      sql
        .replace(/"(\w+)"/g, '$1')
        .replace(/\s+/g, ' ')
        .trim(),
    ]),
  );
}
