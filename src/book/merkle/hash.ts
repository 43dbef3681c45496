import { createHash } from 'node:crypto';

/** A SHA-256 value: 32 bytes. */
export type Hash = Uint8Array;

/** Bytes in a {@link Hash}. */
export const HASH_LENGTH = 32;

const LEAF_PREFIX = Uint8Array.of(0x00);
const NODE_PREFIX = Uint8Array.of(0x01);

/**
 * The hash of a leaf: SHA-256 of 00h and its data.
 *
 * @param data - bytes, or a text that stands for its UTF-8 bytes
 * @see RFC 6962, section 2.1: the prefixes keep a leaf from being passed off as a node
 */
export function hashLeaf(data: Uint8Array | string): Hash {
  return createHash('sha256').update(LEAF_PREFIX).update(data).digest();
}

/** The hash of a node: SHA-256 of 01h and the hashes of its two children (RFC 6962, section 2.1). */
export function hashNode(left: Hash, right: Hash): Hash {
  return createHash('sha256').update(NODE_PREFIX).update(left).update(right).digest();
}

/** The root of a tree without leaves: SHA-256 of nothing (RFC 6962, section 2.1). */
export const EMPTY_ROOT: Hash = createHash('sha256').digest();

/**
 * The root above neighbouring subtrees, each at least as large as the next: joined from the right.
 *
 * @param roots - their roots from left to right; none gives {@link EMPTY_ROOT}
 */
export function joinRoots(roots: readonly Hash[]): Hash {
  let joined = roots.at(-1) ?? EMPTY_ROOT;
  for (let i = roots.length - 2; i >= 0; i--) joined = hashNode(roots[i]!, joined);
  return joined;
}

/** Whether two hashes are the same. */
export function isSameHash(a: Hash, b: Hash): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
