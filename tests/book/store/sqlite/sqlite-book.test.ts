import { describe, expect, it } from 'vitest';
import { makeCapture, makeCount, openBook, sha256Of, temporaryPath, withDatabase } from '../temporary-book.js';

describe('piecesOf', () => {
  it('gives the file, the reads and the nodes of an entry', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('x')]);
    await book.recordEntries([makeCount('bag 1')]);
    expect(await book.piecesOf(0)).toMatchObject({
      nodes: [{ level: 0, index: 0 }],
      blob: { sha256: sha256Of('x'), size: 1 },
      reads: { count: 1 },
    });
    // SHA-256 of nothing, for there are no reads.
    const none = { count: 0, sha256: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' };
    expect(await book.piecesOf(1)).toMatchObject({ nodes: [{ level: 0 }, { level: 1 }], blob: null, reads: none });
    expect(await book.piecesOf(2)).toEqual({ nodes: [], blob: null, reads: none });
  });

  it('gives the file of the earlier entry for one that was set aside first', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('x', { kind: 'set-aside', reads: [] })]);
    await book.recordCaptures([makeCapture('x')]);
    expect((await book.piecesOf(1)).blob).toEqual({ sha256: sha256Of('x'), size: 1 });
  });
});

describe('the tally', () => {
  it('counts what is recorded', async () => {
    const book = await openBook();
    expect(await book.tally()).toEqual({ entries: 0, nodes: 0, blobs: 0, reads: 0 });
    await book.recordCaptures([makeCapture('x'), makeCapture('y')]);
    await book.recordEntries([makeCount('bag 1')]);
    expect(await book.tally()).toEqual({ entries: 3, nodes: 4, blobs: 2, reads: 2 });
  });
});

describe('a call that fails', () => {
  it('leaves the book as it was, its tree too, and the next call works', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('x')]);
    const before = await book.head();
    const broken = makeCapture('broken', { facts: { not: undefined as unknown as null } });
    await expect(book.recordCaptures([makeCapture('y'), broken])).rejects.toThrow(TypeError);
    expect(await book.head()).toEqual(before);
    expect(await book.findCapture(sha256Of('y'))).toBeNull();
    await book.recordCaptures([makeCapture('y')]);
    const other = await openBook();
    await other.recordCaptures([makeCapture('x'), makeCapture('y')]);
    expect(await book.head()).toEqual(await other.head());
  });

  it('because of a guard is told as refused', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([makeCapture('x')]);
    await withDatabase(path, (database) => {
      database.exec(`CREATE TRIGGER no_more BEFORE INSERT ON entry BEGIN SELECT raise(ABORT, 'no'); END`);
    });
    await expect(book.recordEntries([makeCount('bag 1')])).rejects.toMatchObject({ kind: 'refused' });
  });

  it('because an entry is gone is told as damage', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([makeCapture('x')]);
    await withDatabase(path, (database) => {
      database.pragma('foreign_keys = OFF');
      database.exec('DROP TRIGGER entry_is_not_removed');
      database.exec('DELETE FROM entry');
    });
    await expect(book.findCapture(sha256Of('x'))).rejects.toMatchObject({ kind: 'corrupted' });
  });
});
