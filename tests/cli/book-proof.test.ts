import { describe, expect, it } from 'vitest';
import { type BookProof, checkProof } from '../../src/book/index.js';
import { makeCapture, openBook, temporaryFolder } from '../book/store/temporary-book.js';
import { bookJsonOf, makeBookFolder, runBook } from './book-folder.js';

describe('book proof', () => {
  it('proves each entry against the head', async () => {
    const { folder, head } = await makeBookFolder();
    for (let entry = 0; entry < head.size; entry++) {
      const outcome = await runBook(folder, ['proof', String(entry)]);
      const [proof] = bookJsonOf<BookProof>(outcome, 'book-proof');
      expect(proof).toMatchObject({ proof: 'inclusion', entry, head });
      expect(checkProof(proof, head).holds).toBe(true);
    }
  });

  it('proves that the book has grown out of what it was', async () => {
    const { folder, head, path } = await makeBookFolder();
    await (await openBook(path)).recordCaptures([makeCapture('later')]);
    const [proof] = bookJsonOf<BookProof>(await runBook(folder, ['proof', '--from', '8']), 'book-proof');
    expect(proof).toMatchObject({ proof: 'consistency', earlier: head, later: { size: 9 } });
    expect(checkProof(proof, head).holds).toBe(true);
  });

  it('refuses what it can not prove in one line', async () => {
    const { folder } = await makeBookFolder();
    const errorOf = async (...argv: string[]) => {
      const { status, out, err } = await runBook(folder, ['proof', ...argv]);
      expect(out).toBe('');
      return `${status} ${err}`;
    };
    expect(await errorOf()).toMatch(/^64 coilbook: name either the number of an entry, or --from/);
    expect(await errorOf('1', '--from', '2')).toMatch(/^64 coilbook: name either/);
    expect(await errorOf('8')).toBe('64 coilbook: there is no entry 8: the book has 8, numbered from 0\n');
    expect(await errorOf('--from', '9')).toMatch(/^64 coilbook: the book never had 9 entries/);
    expect(await errorOf('x')).toBe('64 coilbook: expected the number of an entry, not "x"\n');
    const empty = temporaryFolder();
    await openBook(`${empty}/coilbook.db`);
    expect((await runBook(empty, ['proof', '0'])).err).toMatch(/the book is empty/);
  });
});
