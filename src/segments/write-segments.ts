import type { SegmentBlock } from './segment-block.js';

/**
 * The bytes of all lines of all blocks, as they came. For blocks of one file in order this is the file byte for byte,
 * but for what was skipped as overlong.
 */
export function writeSegments(blocks: Iterable<SegmentBlock>): Uint8Array {
  const pieces: Uint8Array[] = [];
  for (const block of blocks) {
    for (let line = 0; line < block.lineCount; line++) pieces.push(block.raw(line));
  }
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
