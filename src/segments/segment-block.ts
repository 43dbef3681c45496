import { decodeLatin1 } from '../bytes/index.js';
import { KIND_SHIFT, type LineTable, ROW } from './line-table.js';
import { parseWholeNumber } from './number.js';

/** Kinds of line besides the numbers of known segments (0 and up, see `SEGMENTS`). */
export const LINE_KIND = { unknownSegment: -1, blank: -2, padding: -3 } as const;

/** A segment as its text, for callers that want no offsets into bytes. */
export interface Segment {
  readonly id: string;
  /** `elements[0]` is the first element after the identifier. */
  readonly elements: readonly string[];
  /** Line in the file, from 1. */
  readonly line: number;
  /** Bytes from the start of the file to the identifier, and to each element. */
  readonly offset: number;
  readonly elementOffsets: readonly number[];
}

/** What a {@link SegmentBlock} is made of. */
export interface SegmentBlockParts {
  readonly bytes: Uint8Array;
  /** Offset in the file of `bytes[0]`. */
  readonly baseOffset: number;
  /** Number in the file of the first line. */
  readonly firstLine: number;
  readonly lineCount: number;
  /** Where lines and elements are, see {@link ROW}. */
  readonly table: LineTable;
  /** Lines that hold control characters. */
  readonly controlLines: readonly number[];
  /** Where bytes of the file were left out: before which index, and how many. */
  readonly skips: readonly { readonly at: number; readonly length: number; readonly line: number }[];
  /** For each G85 line after an ST: the CRC of everything from that ST up to it. */
  readonly integrity: ReadonlyMap<number, number>;
}

/**
 * A run of whole lines, tokenized where they lie: no text is made until it is asked for.
 *
 * Lines are numbered from 0 inside the block, elements from 1 within a segment. A line is a segment (known or unknown),
 * blank, or padding (NUL or 1Ah only). A line's content leaves out its ending, and spaces and padding before that.
 */
export class SegmentBlock {
  readonly bytes: Uint8Array;
  readonly lineCount: number;
  readonly parts: SegmentBlockParts;
  readonly #table: LineTable;
  readonly #marksAt: number;

  constructor(parts: SegmentBlockParts) {
    this.parts = parts;
    this.bytes = parts.bytes;
    this.lineCount = parts.lineCount;
    this.#table = parts.table;
    this.#marksAt = (parts.lineCount + 1) * ROW.size;
  }

  /** The number of the line's segment in `SEGMENTS`, or one of {@link LINE_KIND}. */
  kind(line: number): number {
    return this.#table[line * ROW.size + ROW.kind]! - KIND_SHIFT;
  }

  /** Index of the first byte of the line. */
  start(line: number): number {
    return this.#table[line * ROW.size]!;
  }

  /** Index after the last byte of the line's content. */
  contentEnd(line: number): number {
    return this.#table[line * ROW.size + ROW.contentEnd]!;
  }

  /** Index after the line's ending: where the next line starts. */
  next(line: number): number {
    return this.#table[(line + 1) * ROW.size]!;
  }

  /** Index of the first byte of the line's ending; the same as {@link next} when the line has none. */
  endingStart(line: number): number {
    let end = this.next(line);
    const start = this.start(line);
    if (end > start && this.bytes[end - 1] === 0x0a) end--;
    if (end > start && this.bytes[end - 1] === 0x0d) end--;
    return end;
  }

  /** How many elements the segment has, empty ones counted. */
  elementCount(line: number): number {
    const row = line * ROW.size + ROW.firstMark;
    return this.#table[row + ROW.size]! - this.#table[row]!;
  }

  /** Index of the first byte of an element. For elements that are there. */
  elementStart(line: number, position: number): number {
    return this.#table[this.#marksAt + this.#table[line * ROW.size + ROW.firstMark]! + position - 1]! + 1;
  }

  /** Index after the last byte of an element. For elements that are there. */
  elementEnd(line: number, position: number): number {
    const row = line * ROW.size;
    const mark = this.#table[row + ROW.firstMark]! + position;
    const isLast = mark === this.#table[row + ROW.size + ROW.firstMark]!;
    return this.#table[isLast ? row + ROW.contentEnd : this.#marksAt + mark]!;
  }

  /** The whole number of an element: null when it is absent, empty, not all digits or too large to be kept. */
  number(line: number, position: number): number | null {
    // What elementCount, elementStart and elementEnd say, in fewer steps: checks and intervals live on this.
    const table = this.#table;
    const row = line * ROW.size;
    const mark = table[row + ROW.firstMark]! + position;
    const lastMark = table[row + ROW.size + ROW.firstMark]!;
    if (mark > lastMark) return null;
    const at = this.#marksAt + mark;
    return parseWholeNumber(this.bytes, table[at - 1]! + 1, table[mark === lastMark ? row + ROW.contentEnd : at]!);
  }

  /** The text of an element (Latin-1): null when the segment ends before it; it may be empty. */
  text(line: number, position: number): string | null {
    if (position > this.elementCount(line)) return null;
    return decodeLatin1(this.bytes, this.elementStart(line, position), this.elementEnd(line, position));
  }

  /** The segment's identifier as text. */
  id(line: number): string {
    const end = this.elementCount(line) > 0 ? this.elementStart(line, 1) - 1 : this.contentEnd(line);
    return decodeLatin1(this.bytes, this.start(line), end);
  }

  /** The text of the line (Latin-1), without its ending and what fills it up before that. */
  content(line: number): string {
    return decodeLatin1(this.bytes, this.start(line), this.contentEnd(line));
  }

  /** The line's number in the file, from 1. */
  lineNumber(line: number): number {
    return this.parts.firstLine + line;
  }

  /** The offset in the file of an index into {@link bytes}; where bytes were skipped, the place where that began. */
  fileOffset(index: number): number {
    let offset = this.parts.baseOffset + index;
    for (const skip of this.parts.skips) {
      if (skip.at < index) offset += skip.length;
    }
    return offset;
  }

  /** The line's bytes as they came, with its ending. All lines of all blocks joined are the file (but for skips). */
  raw(line: number): Uint8Array {
    return this.bytes.subarray(this.start(line), this.next(line));
  }

  /** The line as a {@link Segment}; null for blank lines and padding. */
  segment(line: number): Segment | null {
    if (this.kind(line) < LINE_KIND.unknownSegment) return null;
    const elements: string[] = [];
    const elementOffsets: number[] = [];
    for (let position = 1; position <= this.elementCount(line); position++) {
      elements.push(this.text(line, position)!);
      elementOffsets.push(this.fileOffset(this.elementStart(line, position)));
    }
    const offset = this.fileOffset(this.start(line));
    return { id: this.id(line), elements, line: this.lineNumber(line), offset, elementOffsets };
  }

  /** Every segment of the block in order. */
  *[Symbol.iterator](): Generator<Segment> {
    for (let line = 0; line < this.lineCount; line++) {
      const segment = this.segment(line);
      if (segment !== null) yield segment;
    }
  }
}
