import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  consistencyRanges,
  hashLeaf,
  inclusionRanges,
  proveConsistency,
  proveInclusion,
  rootAt,
  verifyConsistency,
  verifyInclusion,
} from '../../../src/book/merkle/index.js';
import { PUBLISHED_CONSISTENCY, PUBLISHED_INCLUSION, PUBLISHED_INPUTS, PUBLISHED_ROOTS } from './published-tree.js';
import { bytes, StoredTree } from './stored-tree.js';

const publishedHead = (size: number) => ({ size, root: bytes(PUBLISHED_ROOTS[size - 1]!) });
const emptyHead = { size: 0, root: bytes('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855') };

const leavesOf = fc.array(fc.uint8Array({ maxLength: 4 }), { minLength: 1, maxLength: 70 });

/** The same bytes but for one bit. */
function flipBit(hash: Uint8Array, bit: number): Uint8Array {
  const flipped = Uint8Array.from(hash);
  const at = bit % (hash.length * 8);
  flipped[at >> 3]! ^= 1 << (at & 7);
  return flipped;
}

/** A list with one member put through a change. */
const withChanged = <T>(list: readonly T[], at: number, change: (member: T) => T): T[] =>
  list.map((member, i) => (i === at ? change(member) : member));

describe('verifyInclusion', () => {
  it.each(PUBLISHED_INCLUSION)('accepts the published proof of leaf $leaf of $size', ({ leaf, size, path }) => {
    const hash = hashLeaf(bytes(PUBLISHED_INPUTS[leaf]));
    expect(verifyInclusion({ index: leaf, hash }, publishedHead(size), path.map(bytes))).toBe(true);
  });

  it('accepts every proof of every tree, and none with a bit changed in leaf, root or proof', async () => {
    await fc.assert(
      fc.asyncProperty(leavesOf, fc.nat(), fc.nat(), async (leaves, seed, bit) => {
        const tree = new StoredTree(leaves);
        const head = { size: leaves.length, root: await rootAt(tree, leaves.length) };
        const index = seed % leaves.length;
        const hash = hashLeaf(leaves[index]!);
        const path = await proveInclusion(tree, index, leaves.length);
        expect(verifyInclusion({ index, hash }, head, path)).toBe(true);
        expect(verifyInclusion({ index, hash: flipBit(hash, bit) }, head, path)).toBe(false);
        expect(verifyInclusion({ index, hash }, { ...head, root: flipBit(head.root, bit) }, path)).toBe(false);
        for (let at = 0; at < path.length; at++) {
          const changed = withChanged(path, at, (part) => flipBit(part, bit));
          expect(verifyInclusion({ index, hash }, head, changed)).toBe(false);
          expect(verifyInclusion({ index, hash }, head, path.toSpliced(at, 1))).toBe(false);
        }
        expect(verifyInclusion({ index, hash }, head, [...path, hash])).toBe(false);
      }),
    );
  });

  it('accepts a proof at no other place in the tree', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 2, max: 70 }), fc.nat(), async (size, seed) => {
        // Different leaves: between equal ones a proof may well fit in two places.
        const leaves = Array.from({ length: size }, (_, i) => Uint8Array.of(i));
        const tree = new StoredTree(leaves);
        const head = { size, root: await rootAt(tree, size) };
        const index = seed % size;
        const path = await proveInclusion(tree, index, size);
        for (let other = 0; other < size; other++) {
          const holds = verifyInclusion({ index: other, hash: hashLeaf(leaves[index]!) }, head, path);
          expect(holds).toBe(other === index);
        }
      }),
    );
  });

  it('accepts no other size, unless the way up is the same for both', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 40 }), fc.nat(), async (size, seed) => {
        const leaves = Array.from({ length: size }, (_, i) => Uint8Array.of(i));
        const tree = new StoredTree(leaves);
        const root = await rootAt(tree, size);
        const index = seed % size;
        const path = await proveInclusion(tree, index, size);
        const sides = (of: number): string =>
          inclusionRanges(index, of)
            .map(({ from }) => (from > index ? 'R' : 'L'))
            .join('');
        for (let other = 0; other <= 80; other++) {
          const holds = verifyInclusion({ index, hash: hashLeaf(leaves[index]!) }, { size: other, root }, path);
          expect(holds).toBe(other > index && sides(other) === sides(size));
        }
      }),
    );
  });

  it('refuses numbers and hashes that are none', () => {
    const hash = hashLeaf(new Uint8Array());
    const head = { size: 1, root: hash };
    expect(verifyInclusion({ index: 0, hash }, head, [])).toBe(true);
    expect(verifyInclusion({ index: -1, hash }, head, [])).toBe(false);
    expect(verifyInclusion({ index: 1, hash }, head, [])).toBe(false);
    expect(verifyInclusion({ index: 0, hash }, { ...head, size: Number.NaN }, [])).toBe(false);
    expect(verifyInclusion({ index: 0, hash }, { size: 2, root: hash }, [hash.subarray(1)])).toBe(false);
    expect(verifyInclusion({ index: 0, hash }, { size: 2 ** 53, root: hash }, [])).toBe(false);
  });
});

describe('verifyConsistency', () => {
  it.each(PUBLISHED_CONSISTENCY)('accepts the published proof from $first to $second', ({ first, second, path }) => {
    expect(verifyConsistency(publishedHead(first), publishedHead(second), path.map(bytes))).toBe(true);
  });

  it('accepts every proof between any two sizes, and none with a bit changed in a root or the proof', async () => {
    await fc.assert(
      fc.asyncProperty(leavesOf, fc.nat(), fc.nat(), async (leaves, seed, bit) => {
        const tree = new StoredTree(leaves);
        const later = { size: leaves.length, root: await rootAt(tree, leaves.length) };
        const first = 1 + (seed % leaves.length);
        const earlier = { size: first, root: await rootAt(tree, first) };
        const path = await proveConsistency(tree, first, leaves.length);
        expect(verifyConsistency(earlier, later, path)).toBe(true);
        expect(verifyConsistency({ ...earlier, root: flipBit(earlier.root, bit) }, later, path)).toBe(false);
        expect(verifyConsistency(earlier, { ...later, root: flipBit(later.root, bit) }, path)).toBe(false);
        for (let at = 0; at < path.length; at++) {
          const changed = withChanged(path, at, (part) => flipBit(part, bit));
          expect(verifyConsistency(earlier, later, changed)).toBe(false);
          expect(verifyConsistency(earlier, later, path.toSpliced(at, 1))).toBe(false);
        }
        expect(verifyConsistency(earlier, later, [...path, later.root])).toBe(false);
      }),
    );
  });

  it('accepts no smaller tree in which any leaf was another', async () => {
    await fc.assert(
      fc.asyncProperty(leavesOf, fc.nat(), fc.nat(), async (leaves, seed, leafSeed) => {
        const first = 1 + (seed % leaves.length);
        const altered = withChanged(leaves.slice(0, first), leafSeed % first, (leaf) => Uint8Array.of(...leaf, 1));
        const tree = new StoredTree(leaves);
        const earlier = { size: first, root: await rootAt(new StoredTree(altered), first) };
        const later = { size: leaves.length, root: await rootAt(tree, leaves.length) };
        const path = await proveConsistency(tree, first, leaves.length);
        expect(verifyConsistency(earlier, later, path)).toBe(false);
      }),
    );
  });

  it('accepts no other sizes, unless the way up is the same for both', async () => {
    const steps = (first: number, second: number): string =>
      consistencyRanges(first, second)
        .map(({ to }) => (to > first ? 'R' : 'L'))
        .join('') + (Number.isInteger(Math.log2(first)) ? ' from its own root' : '');
    const tree = new StoredTree(Array.from({ length: 20 }, (_, i) => Uint8Array.of(i)));
    for (let second = 2; second <= 20; second++) {
      for (let first = 1; first < second; first++) {
        const [earlierRoot, laterRoot] = [await rootAt(tree, first), await rootAt(tree, second)];
        const path = await proveConsistency(tree, first, second);
        for (let other = 0; other <= 40; other++) {
          const isSameEarlier = other > 0 && other < second && steps(other, second) === steps(first, second);
          const earlier = { size: other, root: earlierRoot };
          expect(verifyConsistency(earlier, { size: second, root: laterRoot }, path)).toBe(isSameEarlier);
          const isSameLater = other > first && steps(first, other) === steps(first, second);
          const later = { size: other, root: laterRoot };
          expect(verifyConsistency({ size: first, root: earlierRoot }, later, path)).toBe(isSameLater);
        }
      }
    }
  });

  it('lets every tree grow out of the empty one, and out of itself, without a proof', () => {
    const head = publishedHead(8);
    expect(verifyConsistency(emptyHead, head, [])).toBe(true);
    expect(verifyConsistency({ ...emptyHead, root: head.root }, head, [])).toBe(false);
    expect(verifyConsistency(emptyHead, head, [head.root])).toBe(false);
    expect(verifyConsistency(emptyHead, emptyHead, [])).toBe(true);
    expect(verifyConsistency(head, head, [])).toBe(true);
    expect(verifyConsistency(head, head, [head.root])).toBe(false);
    expect(verifyConsistency(head, { ...head, root: emptyHead.root }, [])).toBe(false);
  });

  it('refuses sizes that are none, trees that shrank, hashes that are none and proofs that are missing', () => {
    expect(verifyConsistency(publishedHead(8), publishedHead(6), [])).toBe(false);
    expect(verifyConsistency({ ...emptyHead, size: -1 }, publishedHead(6), [])).toBe(false);
    expect(verifyConsistency(emptyHead, { ...emptyHead, size: 1.5 }, [])).toBe(false);
    expect(verifyConsistency(publishedHead(6), publishedHead(8), [])).toBe(false);
    expect(verifyConsistency(publishedHead(6), publishedHead(8), [new Uint8Array(31)])).toBe(false);
  });
});
