import { lookUpSegment } from '../dictionary/index.js';
import { IntegrityTracker } from './integrity-tracker.js';
import { LONGEST_SEGMENT } from './limits.js';
import { SegmentBlock } from './segment-block.js';
import { Tokenizer, trimFiller } from './tokenizer.js';

const LF = 0x0a;
const CR = 0x0d;
const STAR = 0x2a;

// Shared by all parsers: a call fills its working space and copies out what it found before it returns.
const TOKENIZER = new Tokenizer();
/** Chunks are tokenized in pieces of at most this many bytes, which bounds the working space. */
const LARGEST_PIECE = 65_536;

/** Where blocks go as soon as they are whole. */
export type BlockSink = (block: SegmentBlock) => void;

/** Options of {@link SegmentParser}. */
export interface SegmentParserOptions {
  /** Longest segment taken in whole, in bytes without its line ending. Default {@link LONGEST_SEGMENT}. */
  readonly longestSegment?: number;
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
  /** The line that began in an earlier chunk: its content, and whether its CR (which an LF may follow) came already. */
  #carry = new Uint8Array(0);
  #carried = 0;
  #skipped = 0;
  #hasCr = false;
  /** CRC found at the start of a carried line, when that had to be read before the line was whole. */
  #earlyIntegrity: number | null = null;
  /** Place of the next line to be tokenized. */
  #offset = 0;
  #line = 1;

  constructor(options: SegmentParserOptions = {}) {
    const longest = options.longestSegment ?? LONGEST_SEGMENT;
    if (!Number.isSafeInteger(longest) || longest < 1) {
      throw new RangeError(`longestSegment must be a whole number above 0, not ${longest}`);
    }
    this.#longest = longest;
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
    if (this.#isCarrying()) this.#emitCarried(this.#hasCr ? [CR] : [], sink);
  }

  #pushPiece(piece: Uint8Array, sink: BlockSink): void {
    const from = this.#isCarrying() ? this.#completeCarried(piece, sink) : 0;
    if (from < 0) return;
    const to = endOfLastWholeLine(piece, from);
    if (to > from) {
      const place = { baseOffset: this.#offset - from, firstLine: this.#line };
      const block = TOKENIZER.tokenize(piece, from, to, place, this.#tracker);
      this.#offset += to - from;
      this.#line += block.lineCount;
      sink(block);
    }
    if (to < piece.length) this.#carryOn(piece, to, piece.length);
  }

  #isCarrying(): boolean {
    return this.#carried > 0 || this.#hasCr;
  }

  /** Take the rest of the carried line. Gives the index after it, or -1 when the piece ends first. */
  #completeCarried(piece: Uint8Array, sink: BlockSink): number {
    if (this.#hasCr) {
      const isPair = piece[0] === LF;
      this.#emitCarried(isPair ? [CR, LF] : [CR], sink);
      return isPair ? 1 : 0;
    }
    const ending = firstLineEnding(piece);
    if (ending < 0 || (piece[ending] === CR && ending === piece.length - 1)) {
      this.#carryOn(piece, 0, piece.length);
      return -1;
    }
    this.#keep(piece, 0, ending);
    const isPair = piece[ending] === CR && piece[ending + 1] === LF;
    this.#emitCarried(isPair ? [CR, LF] : [piece[ending]!], sink);
    return ending + (isPair ? 2 : 1);
  }

  /** Carry bytes that hold no line ending but perhaps a CR as the very last. */
  #carryOn(piece: Uint8Array, from: number, to: number): void {
    const endsInCr = piece[to - 1] === CR;
    this.#keep(piece, from, endsInCr ? to - 1 : to);
    this.#hasCr = endsInCr;
  }

  #keep(piece: Uint8Array, from: number, to: number): void {
    const kept = Math.min(to - from, this.#longest - this.#carried);
    const needed = this.#carried + kept;
    if (needed + 2 > this.#carry.length) {
      // Two bytes more for the line ending.
      const larger = new Uint8Array(Math.min(Math.max(needed * 2, 256), this.#longest) + 2);
      larger.set(this.#carry.subarray(0, this.#carried));
      this.#carry = larger;
    }
    this.#carry.set(piece.subarray(from, from + kept), this.#carried);
    this.#carried = needed;
    if (from + kept < to) this.#skip(piece, from + kept, to);
  }

  /** Pass over bytes beyond the longest segment: counted and in the CRC, but not kept. */
  #skip(piece: Uint8Array, from: number, to: number): void {
    if (this.#skipped === 0) {
      this.#earlyIntegrity = this.#tracker.startLine(this.#carriedKind());
      this.#tracker.pass(this.#carry, 0, this.#carried);
    }
    this.#tracker.pass(piece, from, to);
    this.#skipped += to - from;
  }

  #carriedKind(): number {
    const end = trimFiller(this.#carry, 0, this.#carried);
    const star = this.#carry.subarray(0, end).indexOf(STAR);
    return lookUpSegment(this.#carry, 0, star < 0 ? end : star);
  }

  #emitCarried(ending: readonly number[], sink: BlockSink): void {
    const content = this.#carried;
    const skipped = this.#skipped;
    if (this.#carry.length < content + 2) this.#growForEnding(content);
    this.#carry.set(ending, content);
    const length = content + ending.length;
    const bytes = this.#carry.slice(0, length);
    const place = {
      baseOffset: this.#offset,
      firstLine: this.#line,
      skips: skipped > 0 ? [{ at: content, length: skipped, line: 0 }] : [],
    };
    const tracker = skipped > 0 ? null : this.#tracker;
    let block = TOKENIZER.tokenize(bytes, 0, length, place, tracker);
    if (skipped > 0) {
      this.#tracker.pass(bytes, content, length);
      if (this.#earlyIntegrity !== null) {
        block = new SegmentBlock({ ...block.parts, integrity: new Map([[0, this.#earlyIntegrity]]) });
      }
    }
    this.#offset += length + skipped;
    this.#line += 1;
    this.#carried = 0;
    this.#skipped = 0;
    this.#hasCr = false;
    this.#earlyIntegrity = null;
    sink(block);
  }

  #growForEnding(content: number): void {
    const larger = new Uint8Array(content + 2);
    larger.set(this.#carry.subarray(0, content));
    this.#carry = larger;
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
