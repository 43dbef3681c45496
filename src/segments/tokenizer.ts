import { lookUpSegment } from '../dictionary/index.js';
import { bordersIntegrity, type IntegrityTracker } from './integrity-tracker.js';
import { LINE_KIND, ROW, SegmentBlock, type SegmentBlockParts } from './segment-block.js';

const LF = 0x0a;
const CR = 0x0d;
const SUB = 0x1a;
const SPACE = 0x20;
const STAR = 0x2a;

const { start: START, contentEnd: CONTENT_END, next: NEXT, firstMark: FIRST_MARK, kind: KIND, size: ROW_SIZE } = ROW;

const isFiller = (byte: number): boolean => byte === SPACE || byte === 0 || byte === SUB;

/** Where the content of a line ends that stands from `start` up to `end`: before trailing spaces and padding. */
export function trimFiller(bytes: Uint8Array, start: number, end: number): number {
  let trimmed = end;
  while (trimmed > start && isFiller(bytes[trimmed - 1]!)) trimmed--;
  return trimmed;
}

/** Finds lines and elements in bytes. Keeps its working space from call to call; the blocks it gives own theirs. */
export class Tokenizer {
  #rows = new Int32Array(0);
  #marks = new Int32Array(0);
  #lineCount = 0;
  #markCount = 0;
  #hasControl = false;
  #borders: number[] = [];
  #controlLines: number[] = [];

  /**
   * Tokenize the whole lines in `bytes` from `from` up to `to`. The last one may lack its ending.
   *
   * @param tracker - carries the CRC over the bytes; null when the caller does that itself
   */
  tokenize(
    bytes: Uint8Array,
    from: number,
    to: number,
    place: Pick<SegmentBlockParts, 'baseOffset' | 'firstLine'> & Partial<Pick<SegmentBlockParts, 'skips'>>,
    tracker: IntegrityTracker | null,
  ): SegmentBlock {
    this.#borders = [];
    this.#controlLines = [];
    this.#scan(bytes, from, to);
    this.#closeLines(bytes, from);
    // One buffer for both tables: making an ArrayBuffer costs more than filling it.
    const rowNumbers = (this.#lineCount + 1) * ROW_SIZE;
    const table = new Int32Array(rowNumbers + this.#markCount);
    table.set(this.#rows.subarray(0, rowNumbers));
    table.set(this.#marks.subarray(0, this.#markCount), rowNumbers);
    return new SegmentBlock({
      bytes,
      baseOffset: place.baseOffset,
      firstLine: place.firstLine,
      lineCount: this.#lineCount,
      rows: table,
      marks: table.subarray(rowNumbers),
      controlLines: this.#controlLines,
      skips: place.skips ?? NO_SKIPS,
      integrity: tracker === null ? NO_INTEGRITY : this.#passIntegrity(bytes, from, to, tracker),
    });
  }

  /**
   * One pass over every byte: this is where the time of the whole program goes, so it does the least that can be done
   * and leaves the rest to {@link #closeLines}, once a line.
   */
  #scan(bytes: Uint8Array, from: number, to: number): void {
    const mostMarks = to - from;
    if (this.#marks.length < mostMarks) this.#marks = new Int32Array(mostMarks);
    if (this.#rows.length < (mostMarks + 2) * ROW_SIZE) this.#rows = new Int32Array((mostMarks + 2) * ROW_SIZE);
    const marks = this.#marks;
    const rows = this.#rows;
    let markCount = 0;
    let row = 0;
    let hasControl = false;
    for (let at = from; at < to; at++) {
      const byte = bytes[at]!;
      if (byte > STAR) continue;
      if (byte === STAR) {
        marks[markCount++] = at;
      } else if (byte === LF || byte === CR) {
        rows[row + CONTENT_END] = at;
        if (byte === CR && at + 1 < to && bytes[at + 1] === LF) at++;
        rows[row + NEXT] = at + 1;
        row += ROW_SIZE;
        rows[row + FIRST_MARK] = markCount;
      } else if (byte < SPACE) {
        hasControl = true;
      }
    }
    const scanned = row === 0 ? from : rows[row - ROW_SIZE + NEXT]!;
    if (scanned < to) {
      rows[row + CONTENT_END] = to;
      rows[row + NEXT] = to;
      row += ROW_SIZE;
      rows[row + FIRST_MARK] = markCount;
    }
    this.#lineCount = row / ROW_SIZE;
    this.#markCount = markCount;
    this.#hasControl = hasControl;
  }

  /** Settle where each line's content ends and which segment it is. */
  #closeLines(bytes: Uint8Array, from: number): void {
    const rows = this.#rows;
    const marks = this.#marks;
    const lineCount = this.#lineCount;
    rows[FIRST_MARK] = 0;
    let start = from;
    for (let line = 0, row = 0; line < lineCount; line++, row += ROW_SIZE) {
      const ending = rows[row + CONTENT_END]!;
      const end = trimFiller(bytes, start, ending);
      const firstMark = rows[row + FIRST_MARK]!;
      const idEnd = rows[row + ROW_SIZE + FIRST_MARK]! > firstMark ? marks[firstMark]! : end;
      let kind: number;
      if (end > start) kind = lookUpSegment(bytes, start, idEnd);
      else kind = hasControlCharacter(bytes, start, ending) ? LINE_KIND.padding : LINE_KIND.blank;
      rows[row + START] = start;
      rows[row + CONTENT_END] = end;
      rows[row + KIND] = kind;
      if (bordersIntegrity(kind)) this.#borders.push(line);
      if (this.#hasControl && hasControlCharacter(bytes, start, end)) this.#controlLines.push(line);
      start = rows[row + NEXT]!;
    }
  }

  #passIntegrity(bytes: Uint8Array, from: number, to: number, tracker: IntegrityTracker): ReadonlyMap<number, number> {
    const values = new Map<number, number>();
    let at = from;
    for (const line of this.#borders) {
      const start = this.#rows[line * ROW_SIZE]!;
      tracker.pass(bytes, at, start);
      const value = tracker.startLine(this.#rows[line * ROW_SIZE + KIND]!);
      if (value !== null) values.set(line, value);
      at = start;
    }
    tracker.pass(bytes, at, to);
    return values;
  }
}

const NO_SKIPS: SegmentBlockParts['skips'] = [];
const NO_INTEGRITY: ReadonlyMap<number, number> = new Map();

function hasControlCharacter(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) {
    if (bytes[at]! < SPACE) return true;
  }
  return false;
}
