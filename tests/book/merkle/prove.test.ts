import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hashLeaf, hashNode, proveConsistency, proveInclusion, rootAt } from '../../../src/book/merkle/index.js';
import {
  PUBLISHED_CONSISTENCY,
  PUBLISHED_EMPTY_ROOT,
  PUBLISHED_INCLUSION,
  PUBLISHED_INPUTS,
  PUBLISHED_ROOTS,
} from './published-tree.js';
import { auditPath, consistencyPath } from './recursive-tree.js';
import { bytes, hex, StoredTree } from './stored-tree.js';

const published = new StoredTree(PUBLISHED_INPUTS.map(bytes));

describe('proofs of the reference test data of Certificate Transparency', () => {
  it('has the published root at every size it ever had', async () => {
    expect(hex(await rootAt(published, 0))).toBe(PUBLISHED_EMPTY_ROOT);
    for (const [i, root] of PUBLISHED_ROOTS.entries()) expect(hex(await rootAt(published, i + 1))).toBe(root);
  });

  it.each(PUBLISHED_INCLUSION)('proves leaf $leaf of $size', async ({ leaf, size, path }) => {
    expect((await proveInclusion(published, leaf, size)).map(hex)).toEqual(path);
  });

  it.each(PUBLISHED_CONSISTENCY)('proves that $first grew into $second', async ({ first, second, path }) => {
    expect((await proveConsistency(published, first, second)).map(hex)).toEqual(path);
  });
});

// The example of RFC 6962, section 2.1.3: a tree of seven leaves d0 to d6, whose hashes and nodes are named there.
describe('the example tree of RFC 6962, section 2.1.3', () => {
  const leaves = ['d0', 'd1', 'd2', 'd3', 'd4', 'd5', 'd6'].map((text) => Buffer.from(text));
  const tree = new StoredTree(leaves);
  const [a, b, c, d, e, f, j] = leaves.map((leaf) => hashLeaf(leaf));
  const g = hashNode(a!, b!);
  const h = hashNode(c!, d!);
  const i = hashNode(e!, f!);
  const k = hashNode(g, h);
  const l = hashNode(i, j!);

  it('has the root that joins k and l, and its earlier roots', async () => {
    expect(hex(await rootAt(tree, 7))).toBe(hex(hashNode(k, l)));
    expect(hex(await rootAt(tree, 3))).toBe(hex(hashNode(g, c!)));
    expect(hex(await rootAt(tree, 4))).toBe(hex(k));
    expect(hex(await rootAt(tree, 6))).toBe(hex(hashNode(k, i)));
  });

  it.each([
    { leaf: 0, path: [b, h, l] },
    { leaf: 3, path: [c, g, l] },
    { leaf: 4, path: [f, j, k] },
    { leaf: 6, path: [i, k] },
  ])('has the audit path of d$leaf', async ({ leaf, path }) => {
    expect((await proveInclusion(tree, leaf, 7)).map(hex)).toEqual(path.map((hash) => hex(hash!)));
  });

  it.each([
    { first: 3, path: [c, d, g, l] },
    { first: 4, path: [l] },
    { first: 6, path: [i, j, k] },
  ])('has the consistency proof PROOF($first, D[7])', async ({ first, path }) => {
    expect((await proveConsistency(tree, first, 7)).map(hex)).toEqual(path.map((hash) => hex(hash!)));
  });
});

describe('proofs of any tree', () => {
  const sizes = fc.array(fc.uint8Array({ maxLength: 4 }), { minLength: 1, maxLength: 70 });

  it('are those of the definitions PATH and PROOF', async () => {
    await fc.assert(
      fc.asyncProperty(sizes, fc.nat(), fc.nat(), async (leaves, seed, sizeSeed) => {
        const size = 1 + (sizeSeed % leaves.length);
        const part = leaves.slice(0, size);
        const tree = new StoredTree(leaves);
        const leaf = seed % size;
        expect((await proveInclusion(tree, leaf, size)).map(hex)).toEqual(auditPath(leaf, part).map(hex));
        const first = 1 + (seed % size);
        expect((await proveConsistency(tree, first, size)).map(hex)).toEqual(consistencyPath(first, part).map(hex));
      }),
    );
  });

  it('are refused for a leaf that is not there and for a tree that shrank', async () => {
    await expect(proveInclusion(published, 8, 8)).rejects.toThrow(RangeError);
    await expect(proveInclusion(published, -1, 8)).rejects.toThrow(RangeError);
    await expect(proveInclusion(published, 0.5, 8)).rejects.toThrow(RangeError);
    await expect(proveInclusion(published, 0, 0)).rejects.toThrow(RangeError);
    await expect(proveConsistency(published, 5, 4)).rejects.toThrow(RangeError);
    await expect(proveConsistency(published, -1, 4)).rejects.toThrow(RangeError);
  });

  it('need nothing for a tree that grew out of the empty one', async () => {
    expect(await proveConsistency(published, 0, 8)).toEqual([]);
  });
});
