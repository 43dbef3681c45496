import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hashLeaf, TreeFront } from '../../../src/book/merkle/index.js';
import { PUBLISHED_EMPTY_ROOT, PUBLISHED_INPUTS, PUBLISHED_ROOTS } from './published-tree.js';
import { treeHash } from './recursive-tree.js';
import { bytes, hex, StoredTree } from './stored-tree.js';

describe('TreeFront', () => {
  it('gives the roots of the reference test data of Certificate Transparency for 1 to 8 inputs, and for none', () => {
    expect(hex(TreeFront.EMPTY.root())).toBe(PUBLISHED_EMPTY_ROOT);
    let front = TreeFront.EMPTY;
    const roots = PUBLISHED_INPUTS.map((input) => {
      front = front.append(hashLeaf(bytes(input))).front;
      return hex(front.root());
    });
    expect(roots).toEqual(PUBLISHED_ROOTS);
  });

  it('gives the root that the definition of RFC 6962, section 2.1, gives', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 20 }), { maxLength: 80 }), (leaves) => {
        expect(hex(new StoredTree(leaves).front.root())).toBe(hex(treeHash(leaves)));
      }),
    );
  });

  it('stores each complete subtree once: 2n less the bits set in n', () => {
    fc.assert(
      fc.property(fc.nat({ max: 600 }), (size) => {
        const bits = size.toString(2).replaceAll('0', '').length;
        expect(new StoredTree(Array.from({ length: size }, () => new Uint8Array())).nodes.size).toBe(2 * size - bits);
      }),
      { numRuns: 20 },
    );
  });

  it('appends with no more steps than the tree is high', () => {
    let front = TreeFront.EMPTY;
    for (let size = 1; size <= 1024; size++) {
      const appended = front.append(hashLeaf('x'));
      expect(appended.nodes.length).toBeLessThanOrEqual(Math.log2(size) + 1);
      front = appended.front;
    }
    expect(front.peaks).toHaveLength(1);
  });

  it('is left as it was when a leaf is appended', () => {
    const { front } = TreeFront.EMPTY.append(hashLeaf('a'));
    const root = hex(front.root());
    front.append(hashLeaf('b'));
    expect(front.size).toBe(1);
    expect(hex(front.root())).toBe(root);
  });
});
