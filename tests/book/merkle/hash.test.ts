import { describe, expect, it } from 'vitest';
import { EMPTY_ROOT, hashLeaf, hashNode, isSameHash, joinRoots } from '../../../src/book/merkle/index.js';
import { PUBLISHED_EMPTY_ROOT, PUBLISHED_INPUTS, PUBLISHED_ROOTS } from './published-tree.js';
import { bytes, hex } from './stored-tree.js';

describe('hashes of RFC 6962, section 2.1', () => {
  it('gives the published roots of one input, of two, and of none', () => {
    const first = hashLeaf(bytes(PUBLISHED_INPUTS[0]));
    expect(hex(first)).toBe(PUBLISHED_ROOTS[0]);
    expect(hex(hashNode(first, hashLeaf(bytes(PUBLISHED_INPUTS[1]))))).toBe(PUBLISHED_ROOTS[1]);
    expect(hex(EMPTY_ROOT)).toBe(PUBLISHED_EMPTY_ROOT);
  });

  it('keeps a leaf from being passed off as a node: the same bytes hash differently', () => {
    const [left, right] = [hashLeaf('left'), hashLeaf('right')];
    expect(isSameHash(hashLeaf(Buffer.concat([left, right])), hashNode(left, right))).toBe(false);
  });

  it('takes a text for its UTF-8 bytes', () => {
    expect(hex(hashLeaf('€'))).toBe(hex(hashLeaf(Uint8Array.of(0xe2, 0x82, 0xac))));
  });

  it('joins subtrees from the right', () => {
    const [a, b, c] = [hashLeaf('a'), hashLeaf('b'), hashLeaf('c')];
    expect(hex(joinRoots([a, b, c]))).toBe(hex(hashNode(a, hashNode(b, c))));
    expect(joinRoots([a])).toBe(a);
    expect(joinRoots([])).toBe(EMPTY_ROOT);
  });

  it('tells hashes apart by length and by every byte', () => {
    const hash = hashLeaf('a');
    const changed = Uint8Array.from(hash);
    changed[31]! ^= 1;
    expect(isSameHash(hash, Uint8Array.from(hash))).toBe(true);
    expect(isSameHash(hash, changed)).toBe(false);
    expect(isSameHash(hash, hash.slice(0, 31))).toBe(false);
  });
});
