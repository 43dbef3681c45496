import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { consistencyRanges, coverRange, inclusionRanges } from '../../../src/book/merkle/index.js';

describe('ranges of leaves', () => {
  it('cover 7 leaves by subtrees of 4, 2 and 1, as the tree of RFC 6962, section 2.1.3', () => {
    expect(coverRange({ from: 0, to: 7 })).toEqual([
      { level: 2, index: 0 },
      { level: 1, index: 2 },
      { level: 0, index: 6 },
    ]);
    expect(coverRange({ from: 5, to: 5 })).toEqual([]);
  });

  it('count beyond 32 bits', () => {
    expect(coverRange({ from: 2 ** 40, to: 2 ** 40 + 3 })).toEqual([
      { level: 1, index: 2 ** 39 },
      { level: 0, index: 2 ** 40 + 2 },
    ]);
    expect(inclusionRanges(2 ** 40, 2 ** 40 + 1)).toEqual([{ from: 0, to: 2 ** 40 }]);
  });

  it('of an inclusion proof are, with the leaf, all leaves once', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.nat(), (size, seed) => {
        const leaf = seed % size;
        const pieces = [...inclusionRanges(leaf, size), { from: leaf, to: leaf + 1 }].sort((a, b) => a.from - b.from);
        expect(pieces[0]!.from).toBe(0);
        expect(pieces.at(-1)!.to).toBe(size);
        for (const [i, piece] of pieces.entries()) if (i > 0) expect(piece.from).toBe(pieces[i - 1]!.to);
      }),
    );
  });

  it('of a consistency proof never straddle the end of the smaller tree, and are whole subtrees before it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.nat(), (second, seed) => {
        const first = seed % (second + 1);
        for (const range of consistencyRanges(first, second)) {
          expect(range.to <= first || range.from >= first).toBe(true);
          if (range.to <= first) expect(coverRange(range)).toHaveLength(1);
        }
      }),
    );
  });
});
