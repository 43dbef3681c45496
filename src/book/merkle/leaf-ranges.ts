/** Leaves `from` up to but without `to`. */
export interface LeafRange {
  readonly from: number;
  readonly to: number;
}

/** A complete subtree: the 2^level leaves from leaf `index` * 2^level on. */
export interface NodeAddress {
  readonly level: number;
  readonly index: number;
}

/**
 * The complete subtrees that a range of leaves is made of, left to right: never more than there are bits in its length.
 *
 * @param range - one that a tree hash is taken of: it starts at a multiple of the largest power of two it holds
 */
export function coverRange(range: LeafRange): NodeAddress[] {
  const nodes: NodeAddress[] = [];
  let { from } = range;
  while (from < range.to) {
    let level = 0;
    let leaves = 1;
    while (leaves * 2 <= range.to - from) {
      leaves *= 2;
      level++;
    }
    nodes.push({ level, index: from / leaves });
    from += leaves;
  }
  return nodes;
}

/**
 * The ranges whose tree hashes are the inclusion proof of a leaf, in the order of the proof.
 *
 * @param leaf - number of the leaf, from 0; less than `size`
 * @see RFC 6962, section 2.1.1: PATH(m, D[n])
 */
export function inclusionRanges(leaf: number, size: number): LeafRange[] {
  const ranges: LeafRange[] = [];
  let from = 0;
  let to = size;
  while (to - from > 1) {
    const middle = from + largestPowerBelow(to - from);
    if (leaf < middle) {
      ranges.push({ from: middle, to });
      to = middle;
    } else {
      ranges.push({ from, to: middle });
      from = middle;
    }
  }
  return ranges.reverse();
}

/**
 * The ranges whose tree hashes are the consistency proof between a tree and one it has grown into, in the order of the proof.
 *
 * @param first - leaves of the smaller tree; 0 and `second` need no proof and give no range
 * @see RFC 6962, section 2.1.2: PROOF(m, D[n])
 */
export function consistencyRanges(first: number, second: number): LeafRange[] {
  if (first === 0) return [];
  const ranges: LeafRange[] = [];
  let from = 0;
  let to = second;
  while (to !== first) {
    const middle = from + largestPowerBelow(to - from);
    if (first <= middle) {
      ranges.push({ from: middle, to });
      to = middle;
    } else {
      ranges.push({ from, to: middle });
      from = middle;
    }
  }
  // A subtree that starts at leaf 0 is the smaller tree itself, whose root the verifier has.
  if (from > 0) ranges.push({ from, to });
  return ranges.reverse();
}

/** The largest power of two that is less than `count`; `count` is more than 1. */
function largestPowerBelow(count: number): number {
  let power = 1;
  while (power * 2 < count) power *= 2;
  return power;
}
