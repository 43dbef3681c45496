import { type Hash, joinRoots } from './hash.js';
import { consistencyRanges, coverRange, inclusionRanges, type LeafRange, type NodeAddress } from './leaf-ranges.js';

/** Where the roots of complete subtrees are kept. */
export interface NodeSource {
  /** The roots of complete subtrees, in the order asked for. Rejects when one is not there. */
  treeNodes(addresses: readonly NodeAddress[]): Promise<readonly Hash[]>;
}

/** The root of the tree as it was with its first `size` leaves. */
export async function rootAt(source: NodeSource, size: number): Promise<Hash> {
  return joinRoots(await source.treeNodes(coverRange({ from: 0, to: size })));
}

/**
 * Prove that a leaf is in the tree of the first `size` leaves.
 *
 * @param leaf - number of the leaf, from 0
 * @throws RangeError when the leaf is not among the first `size`
 * @see RFC 6962, section 2.1.1
 */
export async function proveInclusion(source: NodeSource, leaf: number, size: number): Promise<Hash[]> {
  if (!isWithin(leaf, 0, size - 1)) throw new RangeError(`There is no leaf ${leaf} in a tree of ${size}.`);
  return hashRanges(source, inclusionRanges(leaf, size));
}

/**
 * Prove that the tree of the first `second` leaves starts with the tree of the first `first`, unchanged.
 *
 * @throws RangeError when `first` is more than `second`
 * @see RFC 6962, section 2.1.2
 */
export async function proveConsistency(source: NodeSource, first: number, second: number): Promise<Hash[]> {
  if (!isWithin(first, 0, second)) throw new RangeError(`A tree of ${second} has not grown out of one of ${first}.`);
  return hashRanges(source, consistencyRanges(first, second));
}

const isWithin = (value: number, from: number, to: number): boolean =>
  Number.isSafeInteger(value) && value >= from && value <= to;

/** The tree hash of each range, with a single question to the source. */
async function hashRanges(source: NodeSource, ranges: readonly LeafRange[]): Promise<Hash[]> {
  const covers = ranges.map(coverRange);
  const roots = await source.treeNodes(covers.flat());
  let taken = 0;
  return covers.map(({ length }) => {
    taken += length;
    return joinRoots(roots.slice(taken - length, taken));
  });
}
