import { type Hash, hashNode, joinRoots } from './hash.js';
import type { NodeAddress } from './leaf-ranges.js';

/** A complete subtree with its root. */
export interface TreeNode extends NodeAddress {
  readonly hash: Hash;
}

/** What appending a leaf gives: the front after it, and the subtrees that it made complete, the leaf itself first. */
export interface Appended {
  readonly front: TreeFront;
  readonly nodes: readonly TreeNode[];
}

/**
 * The growing edge of a tree: all that must be known of it to append leaves and to tell its root. It never changes;
 * appending gives a new one.
 *
 * @example const { front, nodes } = TreeFront.EMPTY.append(hashLeaf(bytes));
 */
export class TreeFront {
  static readonly EMPTY: TreeFront = new TreeFront(0, []);

  /**
   * @param size - leaves in the tree
   * @param peaks - the roots of the complete subtrees that all its leaves are made of, left to right
   */
  constructor(
    readonly size: number,
    readonly peaks: readonly Hash[],
  ) {}

  /** Append a leaf, given by its hash: at most as many steps as the tree is high, two on average. */
  append(leaf: Hash): Appended {
    const peaks = [...this.peaks];
    const nodes: TreeNode[] = [{ level: 0, index: this.size, hash: leaf }];
    let hash = leaf;
    let level = 0;
    // A subtree with an odd number is the right half of one that is now complete.
    for (let index = this.size; index % 2 === 1; index = (index - 1) / 2) {
      hash = hashNode(peaks.pop()!, hash);
      level++;
      nodes.push({ level, index: (index - 1) / 2, hash });
    }
    peaks.push(hash);
    return { front: new TreeFront(this.size + 1, peaks), nodes };
  }

  /** The root over all leaves. */
  root(): Hash {
    return joinRoots(this.peaks);
  }
}
