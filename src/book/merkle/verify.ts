import { EMPTY_ROOT, HASH_LENGTH, type Hash, hashNode, isSameHash } from './hash.js';

/** How large a tree is, and its root. */
export interface TreeHead {
  readonly size: number;
  readonly root: Hash;
}

/**
 * Whether an inclusion proof shows that a leaf is in a tree.
 *
 * The root is what is proved against. The size only steers the way up: some sizes steer alike, so that a size is worth no
 * more than the place where it stands beside its root.
 *
 * @param leaf - the leaf's number, from 0, and its hash
 * @see RFC 9162, section 2.1.3.2, for proofs as in RFC 6962, section 2.1.1
 */
export function verifyInclusion(
  leaf: { readonly index: number; readonly hash: Hash },
  head: TreeHead,
  path: readonly Hash[],
): boolean {
  if (!isCount(leaf.index) || !isCount(head.size) || leaf.index >= head.size) return false;
  if (!areHashes([leaf.hash, ...path])) return false;
  const way = new WayUp(leaf.index, head.size - 1);
  let hash = leaf.hash;
  for (const sibling of path) {
    if (way.isAtTop) return false;
    hash = way.isRightChild ? hashNode(sibling, hash) : hashNode(hash, sibling);
    way.climb();
  }
  return way.isAtTop && isSameHash(hash, head.root);
}

/**
 * Whether a consistency proof shows that the later tree starts with all leaves of the earlier one, unchanged. Any tree has
 * grown out of the empty one, and each out of itself, with no proof.
 *
 * @see RFC 9162, section 2.1.4.2, for proofs as in RFC 6962, section 2.1.2
 */
export function verifyConsistency(earlier: TreeHead, later: TreeHead, path: readonly Hash[]): boolean {
  if (!isCount(earlier.size) || !isCount(later.size) || earlier.size > later.size) return false;
  if (earlier.size === later.size) return path.length === 0 && isSameHash(earlier.root, later.root);
  if (earlier.size === 0) return path.length === 0 && isSameHash(earlier.root, EMPTY_ROOT);
  if (!areHashes([earlier.root, ...path])) return false;
  const way = new WayUp(earlier.size - 1, later.size - 1);
  way.climbWhileRight();
  const [start, ...siblings] = isPowerOfTwo(earlier.size) ? [earlier.root, ...path] : path;
  if (start === undefined) return false;
  let earlierHash = start;
  let laterHash = start;
  for (const sibling of siblings) {
    if (way.isAtTop) return false;
    if (way.isRightChild) {
      earlierHash = hashNode(sibling, earlierHash);
      laterHash = hashNode(sibling, laterHash);
    } else {
      laterHash = hashNode(laterHash, sibling);
    }
    way.climb();
  }
  return way.isAtTop && isSameHash(earlierHash, earlier.root) && isSameHash(laterHash, later.root);
}

/** The way from a node to the root: `fn` and `sn` of RFC 9162, kept as numbers, since they may have more than 32 bits. */
class WayUp {
  #node: number;
  #last: number;

  constructor(node: number, last: number) {
    this.#node = node;
    this.#last = last;
  }

  get isAtTop(): boolean {
    return this.#last === 0;
  }

  /** Whether the next sibling stands to the left. The last node of a level may have to go up some levels to find one. */
  get isRightChild(): boolean {
    return isOdd(this.#node) || this.#node === this.#last;
  }

  climb(): void {
    if (this.isRightChild) while (!isOdd(this.#node) && this.#node !== 0) this.#shift();
    this.#shift();
  }

  climbWhileRight(): void {
    while (isOdd(this.#node)) this.#shift();
  }

  #shift(): void {
    this.#node = Math.floor(this.#node / 2);
    this.#last = Math.floor(this.#last / 2);
  }
}

/** Hashes of other lengths could be cut in another place and still give the same node. */
const areHashes = (hashes: readonly Hash[]): boolean => hashes.every(({ length }) => length === HASH_LENGTH);

const isOdd = (value: number): boolean => value % 2 === 1;

const isCount = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;

function isPowerOfTwo(count: number): boolean {
  let power = 1;
  while (power < count) power *= 2;
  return power === count;
}
