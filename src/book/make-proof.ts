import { type Hash, proveConsistency, proveInclusion, rootAt } from './merkle/index.js';
import type { ConsistencyProof, InclusionProof } from './shapes.js';
import { type BookStore, writeLeafText } from './store/index.js';

const toHex = (hash: Hash): string => Buffer.from(hash).toString('hex');

/**
 * Prove that an entry is in the book as it is now. The proof holds the entry's text, and can be checked without the book.
 *
 * @throws RangeError (as a rejection) when there is no such entry
 */
export async function makeInclusionProof(book: BookStore, entry: number): Promise<InclusionProof> {
  const head = await book.head();
  const path = await proveInclusion(book, entry, head.size);
  const leaf = writeLeafText((await book.entry(entry))!);
  return { proof: 'inclusion', head, entry, leaf, path: path.map(toHex) };
}

/**
 * Prove that the book as it is now starts with every entry it had at an earlier size, unchanged.
 *
 * @throws RangeError (as a rejection) when it never had that size
 */
export async function makeConsistencyProof(book: BookStore, fromSize: number): Promise<ConsistencyProof> {
  const later = await book.head();
  const path = await proveConsistency(book, fromSize, later.size);
  const earlier = { size: fromSize, root: toHex(await rootAt(book, fromSize)) };
  return { proof: 'consistency', earlier, later, path: path.map(toHex) };
}
