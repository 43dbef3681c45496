import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BookError } from '../../src/book/index.js';
import { InputError } from '../../src/cli/exit-status.js';
import { DEFAULT_BOOK, pathsOfBook, withBook } from '../../src/cli/open-book.js';
import { withDatabase } from '../book/store/temporary-book.js';
import { makeFolder } from '../io/temporary-folder.js';

const headOf = (cwd: string, how: { create?: boolean; isReadOnly?: boolean } = {}) =>
  withBook({ book: DEFAULT_BOOK, ...how }, { cwd }, (book) => book.head());

describe('withBook', () => {
  it('makes a book where it may, opens it again, and gives back what the work gives', async () => {
    const cwd = makeFolder();
    const made = await headOf(cwd, { create: true });
    // The root of the empty tree of RFC 6962: SHA-256 of nothing.
    expect(made).toEqual({ size: 0, root: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' });
    expect(await headOf(cwd, { isReadOnly: true })).toEqual(made);
  });

  it('says what is the case where there is no book, or something else', async () => {
    const cwd = makeFolder();
    await expect(headOf(cwd)).rejects.toThrow(InputError);
    await expect(headOf(cwd)).rejects.toThrow(/coilbook\.db is not there\. Say where it is/);
    writeFileSync(join(cwd, DEFAULT_BOOK), 'machine,asset\n'.repeat(200));
    await expect(headOf(cwd)).rejects.toThrow(/is not a book/);
  });

  it('says so when another process holds it for too long, and when it may only be looked at', async () => {
    const cwd = makeFolder();
    await headOf(cwd, { create: true });
    await withDatabase(join(cwd, DEFAULT_BOOK), async (database) => {
      database.exec('BEGIN IMMEDIATE');
      const recording = withBook({ book: DEFAULT_BOOK, waitMs: 50 }, { cwd }, (book) => book.forgetSteps());
      await expect(recording).rejects.toThrow(/was held by another process for too long/);
      database.exec('ROLLBACK');
    });
    const looking = withBook({ book: DEFAULT_BOOK, isReadOnly: true }, { cwd }, (book) => book.forgetSteps());
    await expect(looking).rejects.toThrow(/can not be written/);
  });

  it('lets go of the book when the work fails, and says of a failure of the book what to do', async () => {
    const cwd = makeFolder();
    const fail = (error: Error) => withBook({ book: DEFAULT_BOOK, create: true }, { cwd }, () => Promise.reject(error));
    const defect = new TypeError('x');
    await expect(fail(defect)).rejects.toBe(defect);
    const refused = new BookError('refused', 'It refused.');
    await expect(fail(refused)).rejects.toBe(refused);
    await expect(fail(new BookError('disk-full', 'The disk is full.'))).rejects.toThrow(
      new InputError('The disk is full.'),
    );
    expect((await headOf(cwd)).size).toBe(0);
  });
});

describe('pathsOfBook', () => {
  it('names the file and what lies beside it', () => {
    expect(pathsOfBook('b/day.db', { cwd: '/w' })).toEqual(
      ['', '-wal', '-shm', '-journal', '-new'].map((end) => `/w/b/day.db${end}`),
    );
  });
});
