import { beforeAll, describe, expect, it } from 'vitest';
import { checkProof } from '../../src/book/check-proof.js';
import { makeConsistencyProof, makeInclusionProof } from '../../src/book/make-proof.js';
import type { ConsistencyProof, InclusionProof } from '../../src/book/shapes.js';
import { openSqliteBook } from '../../src/book/store/index.js';
import { makeCount, temporaryPath } from './store/temporary-book.js';

let inclusion: InclusionProof;
let consistency: ConsistencyProof;
beforeAll(async () => {
  const book = await openSqliteBook(temporaryPath(), { create: true });
  await book.recordEntries(Array.from({ length: 7 }, (_, i) => makeCount(`bag ${i}`)));
  inclusion = await makeInclusionProof(book, 4);
  consistency = await makeConsistencyProof(book, 3);
  await book.close();
});

/** The same hash but for its first digit. */
const alter = (hash: string): string => (hash.startsWith('0') ? '1' : '0') + hash.slice(1);

describe('checkProof', () => {
  it('says what a proof that holds shows', () => {
    expect(checkProof(inclusion)).toEqual({
      holds: true,
      message: `Entry 4 is in the book of 7 entries with root ${inclusion.head.root}.`,
    });
    expect(checkProof(consistency)).toEqual({
      holds: true,
      message:
        `The book of 7 entries with root ${consistency.later.root} starts with all 3 entries of the one with root ` +
        `${consistency.earlier.root}, unchanged.`,
    });
  });

  it('holds an inclusion proof to its text, its number, its root and every hash in it', () => {
    const { head, path, leaf } = inclusion;
    const changes: Partial<InclusionProof>[] = [
      { leaf: leaf.replace('1250', '1251') },
      { leaf: `${leaf} ` },
      { entry: 3 },
      { entry: 3, leaf: leaf.replace('"seq":4', '"seq":3') },
      { head: { ...head, root: alter(head.root) } },
      { head: { ...head, size: 4 } },
      { path: path.slice(1) },
      { path: [...path, head.root] },
      ...path.map((_, i) => ({ path: path.map((hash, j) => (i === j ? alter(hash) : hash)) })),
    ];
    for (const change of changes) {
      const check = checkProof({ ...inclusion, ...change });
      expect(check.holds, JSON.stringify(change)).toBe(false);
      expect(check.message).toMatch(/not/);
    }
  });

  it('takes no text for an entry that does not say its number', () => {
    for (const leaf of ['', 'null', '[]', '"4"', '{"seq":"4"}', '{']) {
      expect(checkProof({ ...inclusion, leaf })).toEqual({
        holds: false,
        message: 'The text in the proof is not that of an entry numbered 4.',
      });
    }
  });

  it('holds a consistency proof to both roots and every hash in it', () => {
    const { earlier, later, path } = consistency;
    const changes: Partial<ConsistencyProof>[] = [
      { earlier: { ...earlier, root: alter(earlier.root) } },
      { earlier: { ...earlier, size: 4 } },
      { later: { ...later, root: alter(later.root) } },
      { later: { ...later, size: 3 } },
      { earlier: later, later: earlier },
      { path: [] },
      ...path.map((_, i) => ({ path: path.map((hash, j) => (i === j ? alter(hash) : hash)) })),
    ];
    for (const change of changes) expect(checkProof({ ...consistency, ...change }).holds).toBe(false);
  });

  it('holds a proof to the head that was noted, by size and root', () => {
    const { head } = inclusion;
    expect(checkProof(inclusion, head).holds).toBe(true);
    expect(checkProof(inclusion, { ...head, size: 8 })).toMatchObject({
      holds: false,
      message: expect.stringContaining('not about the head that was noted'),
    });
    expect(checkProof(inclusion, { ...head, root: alter(head.root) }).holds).toBe(false);
    expect(checkProof(consistency, consistency.earlier).holds).toBe(true);
    expect(checkProof(consistency, consistency.later).holds).toBe(true);
    expect(checkProof(consistency, { ...consistency.earlier, size: 4 }).holds).toBe(false);
  });

  it('refuses what is no proof, saying why in one line that is safe to show', () => {
    const wrongs: unknown[] = [
      null,
      'proof',
      [],
      {},
      { proof: 'exclusion' },
      { ...inclusion, entry: -1 },
      { ...inclusion, entry: 1.5 },
      { ...inclusion, path: ['00'] },
      { ...inclusion, path: [inclusion.head.root.toUpperCase()] },
      { ...consistency, earlier: null },
      { proof: '\u001b[2J' },
    ];
    for (const wrong of wrongs) {
      const check = checkProof(wrong);
      expect(check).toMatchObject({ holds: false, message: expect.stringMatching(/^This is not a proof: /) });
      expect(check.message).not.toMatch(/[\u0000-\u001f]/);
    }
  });
});
