import { type Hash, hashLeaf, type NodeAddress, type NodeSource, TreeFront } from '../../../src/book/merkle/index.js';

/** A tree with its nodes kept in a map, filled by appending: the least a store has to do. */
export class StoredTree implements NodeSource {
  front = TreeFront.EMPTY;
  readonly nodes = new Map<string, Hash>();

  constructor(leaves: readonly Uint8Array[]) {
    for (const leaf of leaves) {
      const { front, nodes } = this.front.append(hashLeaf(leaf));
      for (const { level, index, hash } of nodes) this.nodes.set(`${level}/${index}`, hash);
      this.front = front;
    }
  }

  async treeNodes(addresses: readonly NodeAddress[]): Promise<Hash[]> {
    return addresses.map(({ level, index }) => {
      const hash = this.nodes.get(`${level}/${index}`);
      if (hash === undefined) throw new Error(`Node ${level}/${index} was never stored.`);
      return hash;
    });
  }
}

/** Bytes as lower-case hex. */
export const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');

/** Bytes of a hex text. */
export const bytes = (text: string): Uint8Array => Buffer.from(text, 'hex');
