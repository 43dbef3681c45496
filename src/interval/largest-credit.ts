import type { Minor } from '../model/index.js';
import type { ReadPair } from './read-pair.js';

/**
 * The most that may stand as a customer's credit at a read: the largest coin or bill the machine lists (CA11, CA14), or
 * its dearest price, whichever is more. Common practice: a machine takes no more money once a credit buys anything.
 */
export function largestCredit({ to: { read } }: ReadPair): Minor {
  let largest = 0;
  for (const id of ['CA11', 'CA14'] as const) {
    for (const line of read.lines(id)) largest = Math.max(largest, read.block.number(line, 1) ?? 0);
  }
  for (const column of read.columns) largest = Math.max(largest, column.price ?? 0);
  return largest;
}
