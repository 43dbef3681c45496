import { describe, expect, it } from 'vitest';
import { hashLeaf, proveInclusion, verifyInclusion } from '../../../../src/book/merkle/index.js';
import { writeLeafText } from '../../../../src/book/store/index.js';
import { makeCount, openBook, temporaryPath, withDatabase } from '../temporary-book.js';

describe('nodes of the tree', () => {
  it('prove every entry', async () => {
    const book = await openBook();
    await book.recordEntries(Array.from({ length: 13 }, (_, i) => makeCount(`bag ${i}`)));
    const { size, root } = await book.head();
    for (let index = 0; index < size; index++) {
      const hash = hashLeaf(writeLeafText((await book.entry(index))!));
      const path = await proveInclusion(book, index, size);
      expect(verifyInclusion({ index, hash }, { size, root: Buffer.from(root, 'hex') }, path)).toBe(true);
    }
  });

  it('are stored with the entry that completes them', async () => {
    const book = await openBook();
    await book.recordEntries(Array.from({ length: 8 }, (_, i) => makeCount(`bag ${i}`)));
    const addresses = async (seq: number) => (await book.piecesOf(seq)).nodes.map(({ level, index }) => [level, index]);
    expect(await addresses(6)).toEqual([[0, 6]]);
    expect(await addresses(7)).toEqual([
      [0, 7],
      [1, 3],
      [2, 1],
      [3, 0],
    ]);
    expect((await book.tally()).nodes).toBe(15);
  });

  it('that are missing are told as damage', async () => {
    const path = temporaryPath();
    await (await openBook(path)).recordEntries([makeCount('bag 1'), makeCount('bag 2')]);
    await withDatabase(path, (database) => {
      database.exec('DROP TRIGGER node_is_not_removed');
      database.exec('DELETE FROM node WHERE level = 1');
    });
    const book = await openBook(path);
    await expect(book.head()).rejects.toMatchObject({ kind: 'corrupted' });
    await expect(book.recordEntries([makeCount('bag 3')])).rejects.toMatchObject({ kind: 'corrupted' });
    expect((await book.piecesOf(1)).nodes.map(({ level }) => level)).toEqual([0]);
  });
});
