import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { BookError } from '../../../../src/book/store/index.js';
import { explainError } from '../../../../src/book/store/sqlite/explain-error.js';

const errorWith = (code: string): Error => new Database.SqliteError('as the library puts it', code);

// Result codes as the documentation of SQLite lists them ("Result and Error Codes").
describe('explainError', () => {
  it.each([
    ['SQLITE_NOTADB', 'not-a-book'],
    ['SQLITE_CORRUPT', 'corrupted'],
    ['SQLITE_CORRUPT_INDEX', 'corrupted'],
    ['SQLITE_IOERR_SHORT_READ', 'corrupted'],
    ['SQLITE_IOERR_CORRUPTFS', 'corrupted'],
    ['SQLITE_IOERR_WRITE', 'disk-failed'],
    ['SQLITE_IOERR_FSYNC', 'disk-failed'],
    ['SQLITE_FULL', 'disk-full'],
    ['SQLITE_READONLY', 'read-only'],
    ['SQLITE_READONLY_DIRECTORY', 'read-only'],
    ['SQLITE_BUSY', 'busy'],
    ['SQLITE_BUSY_SNAPSHOT', 'busy'],
    ['SQLITE_LOCKED', 'busy'],
    ['SQLITE_CANTOPEN', 'cannot-open'],
    ['SQLITE_CONSTRAINT_TRIGGER', 'refused'],
  ])('takes %s for %s', (code, kind) => {
    const cause = errorWith(code);
    const explained = explainError(cause, 'The book x.db');
    expect(explained).toBeInstanceOf(BookError);
    expect(explained).toMatchObject({
      kind,
      cause,
      message: expect.stringMatching(/^The book x\.db (is|was|could|can|refused) .+\.$/),
    });
  });

  it('leaves defects and its own errors as they are', () => {
    const own = new BookError('not-found', 'The book x.db is not there.');
    const defect = errorWith('SQLITE_CONSTRAINT_FOREIGNKEY');
    expect(explainError(own, 'The book x.db')).toBe(own);
    expect(explainError(defect, 'The book x.db')).toBe(defect);
    expect(explainError('thrown text', 'The book x.db')).toBe('thrown text');
  });
});
