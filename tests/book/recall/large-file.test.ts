import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LargeFile } from '../../../src/book/recall/large-file.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { type Read, readCaptures } from '../../../src/read/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { makeCapture, openBook, sha256Of } from '../store/temporary-book.js';

/** All that tells one read from another, and where in the file it stands. */
const describeRead = (read: Read) => ({
  number: read.number,
  asset: read.machine.asset,
  place: read.place('SE01'),
  integrity: read.integrity,
  hasHeader: read.range.transmission?.hasHeader,
  columns: read.columns.map(({ id }) => id),
});

const segments = (asset: number): string[] => [
  `ID1*S${asset}*M****A${asset}`,
  'ID4*2*978*EUR',
  'PA1*11*150',
  'PA2*7*1050',
];
/** What may stand in such a file: captures with and without an envelope, cut ones, and something else between. */
const piece = fc.nat(3).chain((kind) =>
  fc.nat(99).map((asset): Buffer => {
    if (kind === 0) return Buffer.from('taken by hand\r\n');
    const capture = Buffer.from(buildCapture(segments(asset), { envelope: kind !== 1 }));
    return kind === 2 ? capture.subarray(0, capture.indexOf('PA2')) : capture;
  }),
);

async function keepInParts(bytes: Buffer, partBytes: number): Promise<BookStore> {
  const parts = Array.from({ length: Math.ceil(bytes.length / partBytes) }, (_, i) =>
    bytes.subarray(i * partBytes, (i + 1) * partBytes),
  );
  const store = await openBook();
  const capture = makeCapture('x', { sha256: sha256Of(bytes), size: bytes.length, reads: [] });
  await store.recordCaptures([{ ...capture, bytes: parts }]);
  return store;
}

describe('LargeFile', () => {
  it('gives each read as it is when the file is read from its begin, in whatever order they are asked for', async () => {
    const asked = fc.array(fc.uniqueArray(fc.nat(45), { maxLength: 6 }), { minLength: 1, maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(
        fc.array(piece, { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 50, max: 3000 }),
        fc.integer({ min: 1, max: 1500 }),
        asked,
        async (pieces, partBytes, markEvery, queries) => {
          const bytes = Buffer.concat(pieces);
          const store = await keepInParts(bytes, partBytes);
          const all = readCaptures(bytes).reads.map(describeRead);
          // One object for some, another for others: what the first learnt of the file serves the second.
          let file = new LargeFile(store, sha256Of(bytes), markEvery);
          for (const [i, numbers] of queries.entries()) {
            if (i % 2 === 1) file = new LargeFile(store, sha256Of(bytes), markEvery);
            const picked = await file.pick(new Set(numbers));
            const expected = all.filter(({ number }) => numbers.includes(number));
            expect([...picked.values()].map(describeRead).sort((a, b) => a.number - b.number)).toEqual(expected);
          }
          await store.close();
        },
      ),
      { numRuns: 60, seed: 12 },
    );
  });

  it('goes to a read without going through what comes before it again', async () => {
    const bytes = Buffer.concat(Array.from({ length: 2000 }, (_, i) => Buffer.from(buildCapture(segments(i)))));
    const store = await keepInParts(bytes, 8192);
    let read = 0;
    const counting = {
      partsOf: async function* (sha256: string, from?: number) {
        for await (const part of store.partsOf(sha256, from)) {
          read += part.length;
          yield part;
        }
      },
    } as unknown as BookStore;
    const file = new LargeFile(counting, sha256Of(bytes), 4096);
    await file.pick(new Set([1999]));
    expect(read).toBe(bytes.length);
    for (let number = 0; number < 2000; number += 20) await file.pick(new Set([number, 1999 - number]));
    // 100 times two reads: a part or two each, and not half of the file.
    expect(read).toBeLessThan(bytes.length + 200 * 4 * 8192);
  });
});
