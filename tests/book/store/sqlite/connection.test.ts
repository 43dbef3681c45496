import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { loadSqlite, type SqliteLibrary, sqliteCode } from '../../../../src/book/store/sqlite/connection.js';

describe('loadSqlite', () => {
  it('gives the library', async () => {
    const library = await loadSqlite();
    const connection = new library(':memory:');
    expect(connection.prepare('SELECT 1 + 1').pluck().get()).toBe(2);
    connection.close();
  });

  it('says what to install when the package is not there', async () => {
    const missing = Object.assign(new Error(`Cannot find package 'better-sqlite3'`), { code: 'ERR_MODULE_NOT_FOUND' });
    await expect(loadSqlite(() => Promise.reject(missing))).rejects.toMatchObject({
      name: 'BookError',
      kind: 'library-missing',
      message: expect.stringContaining('npm install better-sqlite3@12'),
      cause: missing,
    });
  });

  it('says the same when its native part does not run here', async () => {
    class Broken {
      constructor() {
        throw Object.assign(new Error('was compiled against a different Node.js version'), {
          code: 'ERR_DLOPEN_FAILED',
        });
      }
    }
    const load = () => Promise.resolve({ default: Broken as unknown as SqliteLibrary });
    await expect(loadSqlite(load)).rejects.toMatchObject({ kind: 'library-missing' });
  });
});

describe('sqliteCode', () => {
  it('is the code of an error of the database, and of no other', () => {
    const connection = new Database(':memory:');
    let thrown: unknown;
    try {
      connection.exec('SELECT * FROM nowhere');
    } catch (error) {
      thrown = error;
    }
    connection.close();
    expect(sqliteCode(thrown)).toBe('SQLITE_ERROR');
    expect(sqliteCode(Object.assign(new Error('x'), { code: 'ENOENT' }))).toBeNull();
    expect(sqliteCode(new Error('x'))).toBeNull();
    expect(sqliteCode({ code: 'SQLITE_FULL' })).toBeNull();
    expect(sqliteCode(Object.assign(new Error('x'), { code: 5 }))).toBeNull();
  });
});
