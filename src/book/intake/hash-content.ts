import { createHash } from 'node:crypto';
import { isContent } from '../../interval/index.js';
import type { Read } from '../../read/index.js';

const LINE_FEED = 0x0a;

/**
 * What makes a read the same as another, as lower-case hex: SHA-256 of its `contentKey` in Latin-1, which are the bytes of
 * its segments. They are copied one by one, since making texts of them first takes most of the time.
 */
export function hashContent({ block, range }: Read): string {
  const { bytes } = block;
  const copy = Buffer.allocUnsafe(lengthOfContent(block, range) + 1);
  let length = 0;
  for (let line = range.from; line < range.to; line++) {
    if (!isContent(block.kind(line))) continue;
    const end = block.contentEnd(line);
    for (let at = block.start(line); at < end; at++) copy[length++] = bytes[at]!;
    copy[length++] = LINE_FEED;
  }
  // Line feeds stand between lines, and none behind the last.
  return createHash('sha256')
    .update(copy.subarray(0, Math.max(0, length - 1)))
    .digest('hex');
}

/** Room for the lines with one byte behind each. */
function lengthOfContent(block: Read['block'], { from, to }: Read['range']): number {
  return block.next(to - 1) - block.start(from) + to - from;
}
