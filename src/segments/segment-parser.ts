import { CarriedLine, findLineKind, tokenizeLine } from './carried-line.js';
import { IntegrityTracker } from './integrity-tracker.js';
import { LONGEST_SEGMENT } from './limits.js';
import { SegmentBlock, type SegmentBlockParts } from './segment-block.js';
import { LARGEST_PIECE, tokenize } from './tokenizer.js';

const LF = 0x0a;
const CR = 0x0d;

const NO_SKIPS: SegmentBlockParts['skips'] = [];
const NO_INTEGRITY: SegmentBlockParts['integrity'] = new Map();

/** Where blocks go as soon as they are whole. */
export type BlockSink = (block: SegmentBlock) => void;

/** Options of {@link SegmentParser}. */
export interface SegmentParserOptions {
  /** Longest segment taken in whole, in bytes without its line ending. Default {@link LONGEST_SEGMENT}. */
  readonly longestSegment?: number;
  /** Where in the file the first byte stands, at the start of a line; its line counts from 1. Default: the file's begin. */
  readonly startAt?: { readonly offset: number; readonly line: number };
}

/**
 * Bytes in, blocks of tokenized lines out, whatever the chunks: any chunking of the same bytes gives the same lines with
 * the same places, and the same CRC at every G85.
 *
 * Whole lines are tokenized where they lie in the chunk, so a chunk must not be changed after it was pushed. Only a line
 * that goes on in the next chunk is copied, up to the longest allowed: memory stays flat whatever comes. CR LF, LF alone
 * and CR alone each end a line. No bytes can make it throw.
 *
 * @throws RangeError for a longest segment that is not a whole number above 0
 * @example
 * const parser = new SegmentParser();
 * parser.push(bytes, (block) => { for (const segment of block) console.log(segment.id, segment.elements); });
 * parser.end((block) => { … });
 */
export class SegmentParser {
  readonly #longest: number;
  readonly #tracker = new IntegrityTracker();
  readonly #carried: CarriedLine;
  /** Whether a line began in an earlier chunk, and whether its CR (which an LF may follow) came already. */
  #isCarrying = false;
  #hasCr = false;
  /** Bytes of that line beyond the longest segment, and the CRC that was read off when the first of them came. */
  #skipped = 0;
  #earlyCrc: number | null = null;
  /** Place of the next line to be given out. */
  #offset = 0;
  #line = 1;

  constructor(options: SegmentParserOptions = {}) {
    const longest = options.longestSegment ?? LONGEST_SEGMENT;
    if (!Number.isSafeInteger(longest) || longest < 1) {
      throw new RangeError(`longestSegment must be a whole number above 0, not ${longest}`);
    }
    this.#longest = longest;
    if (options.startAt !== undefined) {
      this.#offset = options.startAt.offset;
      this.#line = options.startAt.line;
    }
    this.#carried = new CarriedLine(longest);
  }

  /** Take the next bytes of the file; blocks that became whole go to `sink` before this returns. */
  push(chunk: Uint8Array, sink: BlockSink): void {
    // A piece is never longer than the longest segment, so that a line inside one piece can not be overlong.
    const largest = Math.min(this.#longest, LARGEST_PIECE);
    if (chunk.length <= largest) {
      if (chunk.length > 0) this.#pushPiece(chunk, sink);
      return;
    }
    for (let at = 0; at < chunk.length; at += largest) this.#pushPiece(chunk.subarray(at, at + largest), sink);
  }

  /** Say that the file ends here: a last line without its ending goes to `sink`. The parser must not be used again. */
  end(sink: BlockSink): void {
    if (this.#isCarrying) this.#giveCarried(this.#hasCr ? [CR] : [], sink);
  }

  #pushPiece(piece: Uint8Array, sink: BlockSink): void {
    const from = this.#isCarrying ? this.#completeCarried(piece, sink) : 0;
    if (from === piece.length) return;
    const to = endOfLastWholeLine(piece, from);
    if (to > from) this.#giveLines(piece, from, to, sink);
    if (to < piece.length) this.#carryOn(piece, to);
  }

  #giveLines(piece: Uint8Array, from: number, to: number, sink: BlockSink): void {
    const lines = tokenize(piece, from, to);
    const block = new SegmentBlock({
      bytes: piece,
      baseOffset: this.#offset - from,
      firstLine: this.#line,
      lineCount: lines.lineCount,
      table: lines.table,
      controlLines: lines.controlLines,
      skips: NO_SKIPS,
      integrity: this.#tracker.passLines(piece, from, to, lines.borders),
    });
    this.#offset += to - from;
    this.#line += block.lineCount;
    sink(block);
  }

  /** Take the rest of the carried line. Gives the index after it: the end of the piece when that comes first. */
  #completeCarried(piece: Uint8Array, sink: BlockSink): number {
    if (this.#hasCr) {
      const isPair = piece[0] === LF;
      this.#giveCarried(isPair ? [CR, LF] : [CR], sink);
      return isPair ? 1 : 0;
    }
    const ending = firstLineEnding(piece);
    if (ending < 0 || (piece[ending] === CR && ending === piece.length - 1)) {
      this.#carryOn(piece, 0);
      return piece.length;
    }
    this.#keep(piece, 0, ending);
    const isPair = piece[ending] === CR && piece[ending + 1] === LF;
    this.#giveCarried(isPair ? [CR, LF] : [piece[ending]!], sink);
    return ending + (isPair ? 2 : 1);
  }

  /** Carry the rest of the piece, which holds no line ending but perhaps a CR as the very last. */
  #carryOn(piece: Uint8Array, from: number): void {
    this.#isCarrying = true;
    this.#hasCr = piece.at(-1) === CR;
    this.#keep(piece, from, this.#hasCr ? piece.length - 1 : piece.length);
  }

  #keep(piece: Uint8Array, from: number, to: number): void {
    const end = this.#carried.append(piece, from, to);
    if (end === to) return;
    // What goes beyond the longest segment is counted and goes into the CRC, but is not kept.
    if (this.#skipped === 0) this.#earlyCrc = this.#passContent(this.#carried.content);
    this.#tracker.pass(piece, end, to);
    this.#skipped += to - end;
  }

  /** Pass the content of a carried line. Gives the CRC that is read off at its start, if one is. */
  #passContent(content: Uint8Array): number | null {
    const crc = this.#tracker.startLine(findLineKind(content, content.length));
    this.#tracker.pass(content, 0, content.length);
    return crc;
  }

  #giveCarried(ending: readonly number[], sink: BlockSink): void {
    const content = this.#carried.content;
    const skipped = this.#skipped;
    const bytes = new Uint8Array(content.length + ending.length);
    bytes.set(content);
    bytes.set(ending, content.length);
    const crc = skipped > 0 ? this.#earlyCrc : this.#passContent(content);
    this.#tracker.pass(bytes, content.length, bytes.length);
    const { table, hasControl } = tokenizeLine(bytes, content.length);
    const block = new SegmentBlock({
      bytes,
      baseOffset: this.#offset,
      firstLine: this.#line,
      lineCount: 1,
      table,
      controlLines: hasControl ? [0] : [],
      skips: skipped > 0 ? [{ at: content.length, length: skipped, line: 0 }] : NO_SKIPS,
      integrity: crc === null ? NO_INTEGRITY : new Map([[0, crc]]),
    });
    this.#offset += bytes.length + skipped;
    this.#line += 1;
    this.#carried.clear();
    this.#isCarrying = false;
    this.#hasCr = false;
    this.#skipped = 0;
    sink(block);
  }
}

/** Index after the last line ending of the piece, where a CR as the very last byte does not count: an LF may follow. */
function endOfLastWholeLine(piece: Uint8Array, from: number): number {
  for (let at = piece.length - 1; at >= from; at--) {
    if (piece[at] === LF || (piece[at] === CR && at < piece.length - 1)) return at + 1;
  }
  return from;
}

function firstLineEnding(piece: Uint8Array): number {
  const lf = piece.indexOf(LF);
  const cr = (lf < 0 ? piece : piece.subarray(0, lf)).indexOf(CR);
  return cr >= 0 ? cr : lf;
}
