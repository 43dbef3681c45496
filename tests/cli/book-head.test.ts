import { describe, expect, it } from 'vitest';
import { EMPTY_ROOT } from '../../src/book/index.js';
import { openBook, temporaryFolder } from '../book/store/temporary-book.js';
import { bookJsonOf, makeBookFolder, runBook } from './book-folder.js';
import { expectReadable } from './run-program.js';

describe('book head', () => {
  it('gives size and root, and says why both are written down', async () => {
    const { folder, head } = await makeBookFolder();
    const outcome = await runBook(folder, ['head']);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expect(outcome.lines.slice(0, 2)).toEqual(['size  8', `root  ${head.root}`]);
    expect(outcome.out).toContain('Write both down');
    expectReadable(outcome);
    expect(bookJsonOf(await runBook(folder, ['head', '--json']), 'book-head')).toEqual([head]);
  });

  it('gives the root of nothing for a book without entries', async () => {
    const folder = temporaryFolder();
    await openBook(`${folder}/other.db`);
    const outcome = await runBook(folder, ['head', '--book', 'other.db', '--json']);
    // RFC 6962, section 2.1: SHA-256 of an empty string.
    expect(bookJsonOf(outcome, 'book-head')).toEqual([{ size: 0, root: Buffer.from(EMPTY_ROOT).toString('hex') }]);
  });

  it('says so when there is no book', async () => {
    const outcome = await runBook(temporaryFolder(), ['head']);
    expect([outcome.status, outcome.out]).toEqual([66, '']);
    expect(outcome.err).toMatch(/^coilbook: The book .*coilbook\.db is not there\./);
  });
});
