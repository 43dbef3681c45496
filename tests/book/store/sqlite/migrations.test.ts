import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import {
  APPLICATION_ID,
  BOOK_VERSION,
  MIGRATIONS,
  migrate,
  readVersion,
} from '../../../../src/book/store/sqlite/migrations.js';

const NAME = 'The book x.db';

describe('migrate', () => {
  it('brings an empty database to the version of today, and marks it', () => {
    const database = new Database(':memory:');
    expect(readVersion(database, NAME)).toBeNull();
    migrate(database, NAME);
    expect(readVersion(database, NAME)).toBe(BOOK_VERSION);
    expect(database.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
    expect(Buffer.from(APPLICATION_ID.toString(16), 'hex').toString('latin1')).toBe('Coil');
    database.close();
  });

  it('changes nothing in a book that is up to date', () => {
    const database = new Database(':memory:');
    migrate(database, NAME);
    const before = database.serialize();
    migrate(database, NAME);
    expect(database.serialize().equals(before)).toBe(true);
    database.close();
  });

  it('takes only the steps that are still to be taken, each once, in order', () => {
    const database = new Database(':memory:');
    migrate(database, NAME);
    const steps = [...MIGRATIONS, 'CREATE TABLE later (step INTEGER)', 'INSERT INTO later VALUES (3)'];
    // The program that knows these steps would take the last for its own version; this one calls it newer.
    expect(() => migrate(database, NAME, steps)).toThrow('later version');
    expect(database.prepare('SELECT count(*) FROM later').pluck().get()).toBe(0);
    expect(database.pragma('user_version', { simple: true })).toBe(BOOK_VERSION + 1);
    database.close();
  });

  it('leaves a step that fails undone, whole', () => {
    const database = new Database(':memory:');
    expect(() => migrate(database, NAME, ['CREATE TABLE first (x); CREATE TABLE first (x);'])).toThrow(
      'already exists',
    );
    expect(readVersion(database, NAME)).toBeNull();
    database.close();
  });
});

describe('readVersion', () => {
  it('refuses a database of something else', () => {
    const database = new Database(':memory:');
    database.exec('CREATE TABLE recipes (name TEXT)');
    expect(() => readVersion(database, NAME)).toThrow('The book x.db is a database, but not a book.');
    database.close();
  });

  it('refuses an empty database with the mark or the version of something else', () => {
    for (const pragma of ['application_id = 7', 'user_version = 3']) {
      const database = new Database(':memory:');
      database.pragma(pragma);
      expect(() => readVersion(database, NAME)).toThrow('not a book');
      database.close();
    }
  });

  it('refuses a book of a later program, saying which version it is of', () => {
    const database = new Database(':memory:');
    migrate(database, NAME);
    database.pragma(`user_version = ${BOOK_VERSION + 1}`);
    expect(() => readVersion(database, NAME)).toThrow(
      `later version of this program (book version ${BOOK_VERSION + 1}; this program knows up to ${BOOK_VERSION})`,
    );
    database.close();
  });
});
