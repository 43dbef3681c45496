// Merkle: leaves → a tree as in RFC 6962, its root, and proofs that others can check.
// In: hashes of leaves, and a source of stored nodes. Out: roots, inclusion and consistency proofs, whether they hold.
// Must not know: what a leaf says, and where nodes are stored.
export { EMPTY_ROOT, HASH_LENGTH, type Hash, hashLeaf, hashNode, isSameHash, joinRoots } from './hash.js';
export {
  consistencyRanges,
  coverRange,
  inclusionRanges,
  type LeafRange,
  type NodeAddress,
} from './leaf-ranges.js';
export { type NodeSource, proveConsistency, proveInclusion, rootAt } from './prove.js';
export { type Appended, TreeFront, type TreeNode } from './tree-front.js';
export { type TreeHead, verifyConsistency, verifyInclusion } from './verify.js';
