import { decodeLatin1 } from '../bytes/index.js';
import type { BlockPart } from '../segments/index.js';
import { mergeBlocks, SegmentBlock, SegmentParser } from '../segments/index.js';

/** A header that does not stand at the start of its line, since something before it lacks its line ending. */
export interface GluedHeader {
  readonly segment: 'DXS' | 'ST';
  readonly block: SegmentBlock;
  readonly line: number;
  /** Index in the block's bytes of the header's first byte. */
  readonly index: number;
  /** DXS04, for a transmission header. */
  readonly control: string | null;
}

/** A header and what may be glued before it, in bytes from the line's end. */
const LONGEST_HEADER = 200;
const TRANSMISSION = /DXS\*[^*]*\*[^*]*\*[^*]*(?:\*([^*]*))?(?:\*.*)?$/;
const SET = /ST\*\d{3}\*[^*]+(?:\*[^*]*)?$/;

/**
 * Find a header inside a line: files that were joined one behind the other stand so when one lacks its last line ending,
 * was cut inside a line, or ends in filler, or when the next begins with a byte order mark (common practice).
 *
 * An element may well end in the letters of a header (TEST, LAST): the caller must see by the line after it that a set
 * begins here.
 */
export function findGluedHeader(block: SegmentBlock, line: number): GluedHeader | null {
  const end = block.contentEnd(line);
  const from = Math.max(block.start(line), end - LONGEST_HEADER);
  const text = decodeLatin1(block.bytes, from, end);
  const transmission = TRANSMISSION.exec(text);
  const match = transmission ?? SET.exec(text);
  if (match === null || from + match.index === block.start(line)) return null;
  const segment = transmission === null ? 'ST' : 'DXS';
  return { segment, block, line, index: from + match.index, control: transmission?.[1] || null };
}

/** One block of a set whose ST is glued, read anew from the S of ST on, so that the CRC runs from there. */
export function rebuildSet(header: GluedHeader, parts: readonly BlockPart[], longestSegment: number): SegmentBlock {
  const { block, line, index } = header;
  const parser = new SegmentParser({ longestSegment });
  const blocks: SegmentBlock[] = [];
  const keep = (made: SegmentBlock): void => {
    blocks.push(made);
  };
  parser.push(block.bytes.subarray(index, block.next(line)), keep);
  for (const part of parts) {
    parser.push(part.block.bytes.subarray(part.block.start(part.from), part.block.next(part.to - 1)), keep);
  }
  parser.end(keep);
  const merged = mergeBlocks(blocks.map((made) => ({ block: made, from: 0, to: made.lineCount })));
  return new SegmentBlock({
    ...merged.parts,
    baseOffset: block.fileOffset(index),
    firstLine: block.lineNumber(line),
  });
}
