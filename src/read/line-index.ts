import { SEGMENT, SEGMENTS } from '../dictionary/index.js';
import { classifyNumber, LINE_KIND, type SegmentBlock } from '../segments/index.js';
import { HAS_SHAPE, IS_ALL_NUMBERS, SHAPE, SHAPES } from './element-shapes.js';
import { classifyDate, classifyTime } from './machine-date.js';

/** An element whose characters are not what its kind asks for. */
export interface Malformed {
  readonly line: number;
  readonly position: number;
  readonly what: 'not-digits' | 'too-large' | 'bad-date' | 'bad-time';
}

/** A segment that came where, or more often than, it should not; the first one is kept. */
export interface Misplaced {
  readonly line: number;
  readonly why: 'repeated' | 'repeated-column' | 'orphan';
}

/** Where everything stands in one set: line numbers within the block. */
export interface LineIndex {
  /** First line of each known segment that comes once, by its number in `SEGMENTS`; -1 where there is none. */
  readonly single: Int32Array;
  /** Lines of the segments that come any number of times, by their number in `SEGMENTS`. */
  readonly many: ReadonlyMap<number, readonly number[]>;
  /** `COLUMN_STRIDE` lines a column: PA1 to PA5, -1 where there is none. */
  readonly columns: readonly number[];
  /** PA7 lines by the number of their column. */
  readonly paymentLines: ReadonlyMap<number, readonly number[]>;
  readonly malformed: readonly Malformed[];
  readonly misplaced: readonly Misplaced[];
  readonly unknown: readonly number[];
  /** Segments counted: lines that are neither blank nor padding. */
  readonly segmentCount: number;
}

const PA1 = SEGMENT.PA1.index;
const PA7 = SEGMENT.PA7.index;
/** Segments kept a column: PA1, PA2, PA3, PA4, PA5. They follow each other in the dictionary. */
export const COLUMN_STRIDE = PA7 - PA1;

const ONCE = 0;
const MANY = 1;
const COLUMN = 2;
const OCCURS = Uint8Array.from(SEGMENTS, ({ occurs }) =>
  occurs === 'once' ? ONCE : occurs === 'many' ? MANY : COLUMN,
);

/** Builds the {@link LineIndex} of a set in one pass over its lines. */
export function indexLines(block: SegmentBlock, from: number, to: number): LineIndex {
  return new LineIndexer(block).run(from, to);
}

class LineIndexer {
  readonly #single = new Int32Array(SEGMENTS.length).fill(-1);
  readonly #many = new Map<number, number[]>();
  readonly #columns: number[] = [];
  readonly #columnKeys = new Set<number | string>();
  readonly #paymentLines = new Map<number, number[]>();
  readonly #malformed: Malformed[] = [];
  readonly #misplaced: Misplaced[] = [];
  readonly #unknown: number[] = [];
  /** Start in `#columns` of the column that PA segments now belong to; -1: none, -2: one that is not kept. */
  #current = -1;
  readonly #block: SegmentBlock;

  constructor(block: SegmentBlock) {
    this.#block = block;
  }

  run(from: number, to: number): LineIndex {
    const block = this.#block;
    let segmentCount = 0;
    for (let line = from; line < to; line++) {
      const kind = block.kind(line);
      if (kind >= 0) {
        segmentCount++;
        const occurs = OCCURS[kind];
        if (occurs === ONCE) this.#addSingle(line, kind);
        else if (occurs === COLUMN) this.#addToColumn(line, kind);
        else this.#addMany(line, kind);
        if (HAS_SHAPE[kind]) this.#checkShape(line, kind);
      } else if (kind === LINE_KIND.unknownSegment) {
        segmentCount++;
        this.#unknown.push(line);
      }
    }
    return {
      single: this.#single,
      many: this.#many,
      columns: this.#columns,
      paymentLines: this.#paymentLines,
      malformed: this.#malformed,
      misplaced: this.#misplaced,
      unknown: this.#unknown,
      segmentCount,
    };
  }

  #addSingle(line: number, kind: number): void {
    if (this.#single[kind]! < 0) this.#single[kind] = line;
    else this.#misplaced.push({ line, why: 'repeated' });
  }

  #addMany(line: number, kind: number): void {
    const lines = this.#many.get(kind);
    if (lines === undefined) this.#many.set(kind, [line]);
    else lines.push(line);
  }

  #addToColumn(line: number, kind: number): void {
    if (kind === PA1) {
      this.#startColumn(line);
    } else if (this.#current === -1) {
      this.#misplaced.push({ line, why: 'orphan' });
    } else if (this.#current >= 0 && kind === PA7) {
      const column = this.#current / COLUMN_STRIDE;
      const lines = this.#paymentLines.get(column);
      if (lines === undefined) this.#paymentLines.set(column, [line]);
      else lines.push(line);
    } else if (this.#current >= 0) {
      const slot = this.#current + kind - PA1;
      if (this.#columns[slot]! < 0) this.#columns[slot] = line;
      else this.#misplaced.push({ line, why: 'repeated' });
    }
  }

  #startColumn(line: number): void {
    const key = columnKey(this.#block, line);
    if (key === '') {
      this.#current = -1;
      this.#misplaced.push({ line, why: 'orphan' });
      return;
    }
    const known = this.#columnKeys.size;
    if (this.#columnKeys.add(key).size === known) {
      this.#current = -2;
      this.#misplaced.push({ line, why: 'repeated-column' });
      return;
    }
    this.#current = this.#columns.length;
    this.#columns.push(line);
    for (let slot = 1; slot < COLUMN_STRIDE; slot++) this.#columns.push(-1);
  }

  #checkShape(line: number, kind: number): void {
    const block = this.#block;
    if (
      IS_ALL_NUMBERS[kind] &&
      isPlainNumbers(block.bytes, block.start(line) + idLength(kind), block.contentEnd(line))
    ) {
      return;
    }
    const shapes = SHAPES[kind]!;
    const last = Math.min(block.elementCount(line), shapes.length - 1);
    for (let position = 1; position <= last; position++) {
      const shape = shapes[position]!;
      if (shape === SHAPE.free) continue;
      const what = findFlaw(block.bytes, block.elementStart(line, position), block.elementEnd(line, position), shape);
      if (what !== null) this.#malformed.push({ line, position, what });
    }
  }
}

const idLength = (kind: number): number => SEGMENTS[kind]!.id.length;

function findFlaw(bytes: Uint8Array, start: number, end: number, shape: number): Malformed['what'] | null {
  if (shape === SHAPE.number) {
    const state = classifyNumber(bytes, start, end);
    return state === 'not-digits' || state === 'too-large' ? state : null;
  }
  if (shape === SHAPE.date) return classifyDate(bytes, start, end) === 'bad' ? 'bad-date' : null;
  return classifyTime(bytes, start, end) === 'bad' ? 'bad-time' : null;
}

const STAR = 0x2a;
const ZERO = 0x30;
/** So many digits can always be kept exactly. */
const SAFE_DIGITS = 15;

/** Whether there are nothing but digits and `*`, and no element too long: the quick way for almost every line. */
function isPlainNumbers(bytes: Uint8Array, from: number, to: number): boolean {
  let run = 0;
  for (let at = from; at < to; at++) {
    const byte = bytes[at]!;
    if (byte === STAR) {
      run = 0;
    } else {
      const digit = byte - ZERO;
      if (digit < 0 || digit > 9 || ++run > SAFE_DIGITS) return false;
    }
  }
  return true;
}

/** What tells a PA1's column from others: for short ASCII names a number (no text to be made), else the text. */
function columnKey(block: SegmentBlock, line: number): number | string {
  if (block.elementCount(line) === 0) return '';
  const start = block.elementStart(line, 1);
  const end = block.elementEnd(line, 1);
  if (end === start) return '';
  if (end - start > 4) return block.text(line, 1)!;
  let key = 1;
  for (let at = start; at < end; at++) {
    const byte = block.bytes[at]!;
    if (byte > 0x7f) return block.text(line, 1)!;
    key = key * 128 + byte;
  }
  return key;
}
