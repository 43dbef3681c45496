import { createHash } from 'node:crypto';

/** The definitions of RFC 6962, section 2.1, written down as they stand there: slow, and with nothing stored. */

const sha256 = (...parts: Uint8Array[]): Uint8Array => createHash('sha256').update(Buffer.concat(parts)).digest();

/** k: "the largest power of two smaller than n". */
const splitAt = (n: number): number => 2 ** Math.ceil(Math.log2(n) - 1);

/** MTH(D[n]). */
export function treeHash(leaves: readonly Uint8Array[]): Uint8Array {
  if (leaves.length === 0) return sha256();
  if (leaves.length === 1) return sha256(Uint8Array.of(0), leaves[0]!);
  const k = splitAt(leaves.length);
  return sha256(Uint8Array.of(1), treeHash(leaves.slice(0, k)), treeHash(leaves.slice(k)));
}

/** PATH(m, D[n]), section 2.1.1. */
export function auditPath(m: number, leaves: readonly Uint8Array[]): Uint8Array[] {
  if (leaves.length === 1) return [];
  const k = splitAt(leaves.length);
  return m < k
    ? [...auditPath(m, leaves.slice(0, k)), treeHash(leaves.slice(k))]
    : [...auditPath(m - k, leaves.slice(k)), treeHash(leaves.slice(0, k))];
}

/** PROOF(m, D[n]), section 2.1.2. */
export function consistencyPath(m: number, leaves: readonly Uint8Array[]): Uint8Array[] {
  return subProof(m, leaves, true);
}

function subProof(m: number, leaves: readonly Uint8Array[], isWhole: boolean): Uint8Array[] {
  if (m === leaves.length) return isWhole ? [] : [treeHash(leaves)];
  const k = splitAt(leaves.length);
  return m <= k
    ? [...subProof(m, leaves.slice(0, k), isWhole), treeHash(leaves.slice(k))]
    : [...subProof(m - k, leaves.slice(k), false), treeHash(leaves.slice(0, k))];
}
