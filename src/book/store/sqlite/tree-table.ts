import { coverRange, type Hash, type NodeAddress, TreeFront, type TreeNode } from '../../merkle/index.js';
import { BookError } from '../book-error.js';
import type { Connection } from './connection.js';

/** The table of the tree's complete subtrees. */
export class TreeTable {
  readonly #name: string;
  readonly #insert;
  readonly #get;

  /** @param name - what the book is called in messages */
  constructor(connection: Connection, name: string) {
    this.#name = name;
    this.#insert = connection.prepare('INSERT INTO node (level, idx, hash) VALUES (?, ?, ?)');
    this.#get = connection
      .prepare<[number, number], Buffer>('SELECT hash FROM node WHERE level = ? AND idx = ?')
      .pluck();
  }

  insert(nodes: readonly TreeNode[]): void {
    for (const { level, index, hash } of nodes) this.#insert.run(level, index, hash);
  }

  /**
   * The roots of subtrees, in the order asked for.
   *
   * @throws BookError `corrupted` when one is missing
   */
  get(addresses: readonly NodeAddress[]): Hash[] {
    return addresses.map(({ level, index }) => {
      const hash = this.#get.get(level, index);
      if (hash !== undefined) return hash;
      throw new BookError(
        'corrupted',
        `${this.#name} is damaged: node ${index} of level ${level} of its tree is missing. Verify the book.`,
      );
    });
  }

  /** The growing edge of the tree. */
  front(size: number): TreeFront {
    return new TreeFront(size, this.get(coverRange({ from: 0, to: size })));
  }

  /** The subtrees that are stored and end with a leaf, the leaf itself first. One that is missing is left out. */
  endingWith(leaf: number): TreeNode[] {
    const nodes: TreeNode[] = [];
    let count = leaf + 1;
    for (let level = 0; ; level++) {
      const hash = this.#get.get(level, count - 1);
      if (hash !== undefined) nodes.push({ level, index: count - 1, hash });
      if (count % 2 === 1) return nodes;
      count /= 2;
    }
  }
}
