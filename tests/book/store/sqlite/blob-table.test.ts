import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gather, makeCapture, makeRead, openBook, sha256Of, temporaryPath, withDatabase } from '../temporary-book.js';

const line = Buffer.from('PA2*12*1800*3*450\r\n', 'latin1');
const large = Buffer.concat(Array.from({ length: 10_000 }, () => line));
/** A file cut into parts of a size. */
const cut = (bytes: Buffer, size: number): Buffer[] =>
  Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) => bytes.subarray(i * size, (i + 1) * size));

const capture = (bytes: Buffer, parts: Iterable<Uint8Array>) => ({
  ...makeCapture('file'),
  sha256: sha256Of(bytes),
  size: bytes.length,
  bytes: parts,
  reads: [makeRead(sha256Of(bytes))],
});

describe('bytes of files', () => {
  it('come back as they were, however they came', async () => {
    const book = await openBook();
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 500 }), fc.integer({ min: 1, max: 600 }), async (array, size) => {
        const bytes = Buffer.from(array);
        await book.recordCaptures([capture(bytes, cut(bytes, size))]);
        expect(bytes.equals((await book.bytesOf(sha256Of(bytes)))!)).toBe(true);
        expect(bytes.equals(Buffer.concat(await gather(book.partsOf(sha256Of(bytes)))))).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  it('of a large file are pulled and given part by part, and take less room', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([capture(large, cut(large, 80_000))]);
    expect((await gather(book.partsOf(sha256Of(large)))).map(({ length }) => length)).toEqual([80_000, 80_000, 30_000]);
    expect(large.equals((await book.bytesOf(sha256Of(large)))!)).toBe(true);
    const stored = await withDatabase(path, (database) =>
      database
        .prepare('SELECT sum(length(bytes)) FROM (SELECT bytes FROM blob UNION ALL SELECT bytes FROM blob_part)')
        .pluck()
        .get(),
    );
    expect(stored).toBeLessThan(large.length / 2);
  });

  it('of a file that changed while it was read are not kept, nor anything else of it', async () => {
    const book = await openBook();
    const good = makeCapture('good');
    const later = makeCapture('later');
    const file = { path: '/in/x.dex', size: 3, modifiedMs: 1, changedMs: 1 };
    const otherBytes = {
      ...capture(large, cut(Buffer.concat([large.subarray(1), line.subarray(0, 1)]), 80_000)),
      file,
    };
    const tooFew = capture(large, [large.subarray(0, 100)]);
    const outcomes = await book.recordCaptures([good, otherBytes, tooFew, later]);
    expect(outcomes.map(({ state }) => state)).toEqual(['recorded', 'changed', 'changed', 'recorded']);
    expect(await book.tally()).toMatchObject({ entries: 2, blobs: 2, reads: 2 });
    expect(await book.seenFiles([file])).toEqual([null]);
    expect((await book.staleMachines()).map(({ revision }) => revision)).toEqual([2]);
    expect(await book.recordCaptures([capture(large, [large])])).toMatchObject([{ state: 'recorded', entry: 2 }]);
  });

  it('reject the whole call when they can not be read to the end', async () => {
    const book = await openBook();
    const failing = function* (): Generator<Uint8Array> {
      yield line;
      throw new Error('the folder vanished');
    };
    await expect(book.recordCaptures([makeCapture('good'), capture(large, failing())])).rejects.toThrow('vanished');
    expect(await book.tally()).toMatchObject({ entries: 0, blobs: 0 });
    expect(await book.recordCaptures([makeCapture('good')])).toMatchObject([{ state: 'recorded', entry: 0 }]);
  });

  it('that can not be unpacked are told as damage', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([capture(large, [large])]);
    await withDatabase(path, (database) => {
      database.exec('DROP TRIGGER blob_is_not_changed');
      database.exec(`UPDATE blob SET bytes = x'ffffff'`);
    });
    await expect(book.bytesOf(sha256Of(large))).rejects.toMatchObject({
      kind: 'corrupted',
      message: expect.stringContaining('entry 0'),
    });
  });
});
