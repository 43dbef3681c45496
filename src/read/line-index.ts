import { SEGMENT, SEGMENTS } from '../dictionary/index.js';
import { LINE_KIND, type SegmentBlock } from '../segments/index.js';
import { KIND_SHIFT, ROW } from '../segments/line-table.js';
import { ColumnNames } from './column-names.js';
import { ID_LENGTH, SEGMENT_SHAPING, SHAPING } from './element-shapes.js';
import { findMalformed, isPlainNumbers, type Malformed } from './find-malformed.js';
import { PaidSummer, type PaidSums } from './paid-sums.js';

/** A segment that came where, or more often than, it should not; the first one is kept. */
export interface Misplaced {
  readonly line: number;
  readonly why: 'repeated' | 'repeated-column' | 'orphan';
}

/** Where everything stands in one set: line numbers within the block. */
export interface LineIndex {
  /** First line of each known segment that comes once, by its number in `SEGMENTS`; -1 where there is none. */
  readonly single: readonly number[];
  /** Lines of the segments that come any number of times, whichever they are, in order. */
  readonly many: readonly number[];
  /** {@link COLUMN_STRIDE} lines a column: PA1 to PA5, -1 where there is none. */
  readonly columns: readonly number[];
  /** PA7 lines of the columns that are kept, in order: a column's lie between its PA1 and the next column's. */
  readonly payments: readonly number[];
  /** What the columns have sold, summed up. */
  readonly paid: PaidSums;
  readonly malformed: readonly Malformed[];
  readonly misplaced: readonly Misplaced[];
  readonly unknown: readonly number[];
  /** Segments counted: lines that are neither blank nor padding. */
  readonly segmentCount: number;
}

const PA1 = SEGMENT.PA1.index;
const PA2 = SEGMENT.PA2.index;
const PA7 = SEGMENT.PA7.index;
/** Segments kept a column: PA1, PA2, PA3, PA4, PA5. They follow each other in the dictionary. */
export const COLUMN_STRIDE = PA7 - PA1;

const ONCE = 0;
const MANY = 1;
const COLUMN = 2;
const OCCURS = Uint8Array.from(SEGMENTS, ({ occurs }) =>
  occurs === 'once' ? ONCE : occurs === 'many' ? MANY : COLUMN,
);
const NOWHERE = SEGMENTS.map(() => -1);

// Shared by all: a read is indexed in one go.
const PAID = new PaidSummer();

/** Which column PA segments now belong to: its first place in `columns`, or one of these. */
const NO_COLUMN = -1;
const DROPPED_COLUMN = -2;

/** Builds the {@link LineIndex} of a set in one pass over its lines. Every line of every capture comes through here. */
export function indexLines(block: SegmentBlock, from: number, to: number): LineIndex {
  const { bytes } = block;
  const { table } = block.parts;
  const single = NOWHERE.slice();
  const many: number[] = [];
  const malformed: Malformed[] = [];
  const misplaced: Misplaced[] = [];
  const unknown: number[] = [];
  const groups = new ColumnGroups(block, misplaced);
  let segmentCount = 0;
  for (let line = from, row = from * ROW.size; line < to; line++, row += ROW.size) {
    const kind = table[row + ROW.kind]! - KIND_SHIFT;
    if (kind < 0) {
      if (kind !== LINE_KIND.unknownSegment) continue;
      segmentCount++;
      unknown.push(line);
      continue;
    }
    segmentCount++;
    const occurs = OCCURS[kind];
    if (occurs === COLUMN) {
      if (groups.add(line, kind)) continue;
    } else if (occurs === MANY) many.push(line);
    else if (single[kind]! < 0) single[kind] = line;
    else misplaced.push({ line, why: 'repeated' });
    const shaping = SEGMENT_SHAPING[kind];
    if (shaping === SHAPING.none) continue;
    if (shaping === SHAPING.numbers) {
      const start = table[row]! + ID_LENGTH[kind]!;
      const elementCount = table[row + ROW.size + ROW.firstMark]! - table[row + ROW.firstMark]!;
      if (isPlainNumbers(bytes, start, table[row + ROW.contentEnd]!, elementCount)) continue;
    }
    findMalformed(block, line, kind, malformed);
  }
  const { columns, payments } = groups;
  const paid = PAID.end();
  return { single, many, columns, payments, paid, malformed, misplaced, unknown, segmentCount };
}

/** Gathers PA segments into the columns they belong to. */
class ColumnGroups {
  readonly columns: number[] = [];
  readonly payments: number[] = [];
  readonly #block: SegmentBlock;
  readonly #names: ColumnNames;
  readonly #misplaced: Misplaced[];
  #current = NO_COLUMN;

  constructor(block: SegmentBlock, misplaced: Misplaced[]) {
    PAID.start();
    this.#block = block;
    this.#names = new ColumnNames(block);
    this.#misplaced = misplaced;
  }

  /** Take a line. Says whether its elements were looked at on the way and need no second look. */
  add(line: number, kind: number): boolean {
    if (kind === PA1) {
      this.#start(line);
    } else if (this.#current >= 0) {
      if (kind !== PA7) return this.#keep(line, kind);
      this.payments.push(line);
      return PAID.addListed(this.#block, line);
    } else if (this.#current === NO_COLUMN) {
      this.#misplaced.push({ line, why: 'orphan' });
    }
    return false;
  }

  #keep(line: number, kind: number): boolean {
    const slot = this.#current + kind - PA1;
    if (this.columns[slot]! >= 0) {
      this.#misplaced.push({ line, why: 'repeated' });
      return false;
    }
    this.columns[slot] = line;
    return kind === PA2 && PAID.addPaid(this.#block, line);
  }

  #start(line: number): void {
    const name = this.#names.take(line, this.columns, COLUMN_STRIDE);
    if (name === 'new') {
      PAID.endColumn();
      this.#current = this.columns.length;
      this.columns.push(line, -1, -1, -1, -1);
      return;
    }
    this.#current = name === 'none' ? NO_COLUMN : DROPPED_COLUMN;
    this.#misplaced.push({ line, why: name === 'none' ? 'orphan' : 'repeated-column' });
  }
}
