import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { StatementCache } from '../../../../src/book/store/sqlite/statement-cache.js';

const database = new Database(':memory:');
afterAll(() => database.close());

describe('StatementCache', () => {
  it('prepares a text once', () => {
    const cache = new StatementCache(database);
    const statement = cache.prepare<{ a: number }>('SELECT ? AS a');
    expect(cache.prepare('SELECT ? AS a')).toBe(statement);
    expect(statement.all(7)).toEqual([{ a: 7 }]);
    expect(cache.prepare('SELECT ? AS b')).not.toBe(statement);
  });

  it('does not grow with the texts that it is asked for', () => {
    const cache = new StatementCache(database);
    const first = cache.prepare('SELECT 0 AS a');
    for (let i = 1; i <= 100; i++) cache.prepare(`SELECT ${i} AS a`);
    expect(cache.prepare('SELECT 0 AS a')).not.toBe(first);
    expect(first.all()).toEqual([{ a: 0 }]);
  });
});
