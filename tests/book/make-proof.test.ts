import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { checkProof } from '../../src/book/check-proof.js';
import { makeConsistencyProof, makeInclusionProof } from '../../src/book/make-proof.js';
import { consistencyProofSchema, inclusionProofSchema } from '../../src/book/shapes.js';
import type { BookStore } from '../../src/book/store/index.js';
import { makeCapture, makeCount, openBook } from './store/temporary-book.js';

async function makeFilledBook(count: number): Promise<BookStore> {
  const book = await openBook();
  await book.recordCaptures([makeCapture('zero')]);
  await book.recordEntries(Array.from({ length: count - 1 }, (_, i) => makeCount(`bag ${i}`)));
  return book;
}

const sha256 = (...parts: Uint8Array[]): Buffer => createHash('sha256').update(Buffer.concat(parts)).digest();

describe('makeInclusionProof', () => {
  it('proves every entry at every size the book comes to', async () => {
    const book = await openBook();
    for (let size = 1; size <= 9; size++) {
      await book.recordEntries([makeCount(`bag ${size}`)]);
      for (let entry = 0; entry < size; entry++) {
        const proof = await makeInclusionProof(book, entry);
        expect(proof.head).toEqual(await book.head());
        expect(inclusionProofSchema.parse(JSON.parse(JSON.stringify(proof)))).toEqual(proof);
        expect(checkProof(JSON.parse(JSON.stringify(proof)), await book.head()).holds).toBe(true);
      }
    }
  });

  it('can be checked by hand: the entry, 00h before it, hashed, then joined to the root with 01h', async () => {
    const { leaf, path, head } = await makeInclusionProof(await makeFilledBook(2), 1);
    const hash = sha256(Uint8Array.of(0), Buffer.from(leaf, 'utf8'));
    expect(sha256(Uint8Array.of(1), Buffer.from(path[0]!, 'hex'), hash).toString('hex')).toBe(head.root);
    expect(JSON.parse(leaf)).toMatchObject({ seq: 1, kind: 'count-entered', body: { bag: 'bag 0', coins: 1250 } });
  });

  it('is refused for an entry that is not there', async () => {
    const book = await makeFilledBook(3);
    await expect(makeInclusionProof(book, 3)).rejects.toThrow(RangeError);
    await expect(makeInclusionProof(book, -1)).rejects.toThrow(RangeError);
  });
});

describe('makeConsistencyProof', () => {
  it('proves that the book grew out of every size it ever had', async () => {
    const book = await openBook();
    const heads = [await book.head()];
    for (let i = 1; i <= 9; i++) {
      await book.recordEntries([makeCount(`bag ${i}`)]);
      heads.push(await book.head());
    }
    for (const noted of heads) {
      const proof = await makeConsistencyProof(book, noted.size);
      expect(proof.earlier).toEqual(noted);
      expect(consistencyProofSchema.parse(JSON.parse(JSON.stringify(proof)))).toEqual(proof);
      expect(checkProof(JSON.parse(JSON.stringify(proof)), noted).holds).toBe(true);
    }
  });

  it('is refused for a size it never had', async () => {
    const book = await makeFilledBook(3);
    await expect(makeConsistencyProof(book, 4)).rejects.toThrow(RangeError);
    await expect(makeConsistencyProof(book, -1)).rejects.toThrow(RangeError);
  });
});
