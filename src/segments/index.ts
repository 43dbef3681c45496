// Segments: bytes in any chunks → lines with their elements and places, and the CRC at every G85.
// In: byte chunks. Out: SegmentBlocks, which can be written back byte for byte.
// Must not know: what a segment means beyond its number in the dictionary; sets, reads, findings.
export { LONGEST_SEGMENT } from './limits.js';
export { type BlockPart, mergeBlocks } from './merge-blocks.js';
export { classifyNumber, type NumberState, parseWholeNumber } from './number.js';
export { parseSegments, streamSegments } from './parse-segments.js';
export { LINE_KIND, type Segment, SegmentBlock } from './segment-block.js';
export { type BlockSink, SegmentParser, type SegmentParserOptions } from './segment-parser.js';
export { writeSegments } from './write-segments.js';
