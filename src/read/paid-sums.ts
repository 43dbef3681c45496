import type { SegmentBlock } from '../segments/index.js';
import { ROW } from '../segments/line-table.js';
import { parseShortNumber } from './short-number.js';

/** What the columns of a read have sold, summed up. NaN is a sum of which a part is absent or no number. */
export interface PaidSums {
  /** PA201 to PA204 over all columns. */
  readonly totals: readonly number[];
  /** How many columns have a PA2. */
  readonly lineCount: number;
  /** Whether in any column PA2 and the sum of its PA7 are known and differ; all price lists taken for paid ones. */
  readonly hasListDifference: boolean;
}

/** Number and value since initialisation, number and value since the last reset. */
const SUMMED = 4;
/** PA704 is a price; what is summed follows it. */
const LISTED_FROM = 4;
/** Where the sums stand in the working space. */
const TOTALS = 0;
const PAID = SUMMED;
const LISTED = 2 * SUMMED;

/**
 * Sums up PA2 and PA7 as their lines are looked at: each byte of them has to be seen to be a digit anyway, and the cross
 * totals want the sums of every read. Keeps its working space from read to read.
 */
export class PaidSummer {
  readonly #sums = new Float64Array(3 * SUMMED);
  #view = new DataView(new ArrayBuffer(0));
  #lineCount = 0;
  #hasListDifference = false;
  #hasPaid = false;
  #hasListed = false;

  /** Start on a read in these bytes. */
  start(bytes: Uint8Array): void {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#sums.fill(0);
    this.#lineCount = 0;
    this.#hasListDifference = false;
    this.#hasPaid = false;
    this.#hasListed = false;
  }

  /** Say that the lines of another column follow. */
  endColumn(): void {
    if (this.#hasListed) {
      const sums = this.#sums;
      for (let at = 0; at < SUMMED; at++) {
        // A NaN makes the difference NaN, which is neither below nor above 0.
        const difference = sums[PAID + at]! - sums[LISTED + at]!;
        if (this.#hasPaid && (difference < 0 || difference > 0)) this.#hasListDifference = true;
        sums[LISTED + at] = 0;
      }
    }
    this.#hasPaid = false;
    this.#hasListed = false;
  }

  /**
   * Take the PA2 of a column.
   *
   * @returns whether all its elements are plain digits, so that there is nothing to say of any of them
   */
  addPaid(block: SegmentBlock, line: number): boolean {
    const sums = this.#sums;
    for (let at = PAID; at < PAID + SUMMED; at++) sums[at] = 0;
    this.#lineCount++;
    this.#hasPaid = true;
    const isPlain = addNumbers(block, this.#view, line, 1, 0, sums, PAID);
    for (let at = 0; at < SUMMED; at++) sums[TOTALS + at] = sums[TOTALS + at]! + sums[PAID + at]!;
    return isPlain;
  }

  /** Take a PA7 of a column. Returns what {@link addPaid} does, for the elements that must be numbers. */
  addListed(block: SegmentBlock, line: number): boolean {
    this.#hasListed = true;
    return addNumbers(block, this.#view, line, LISTED_FROM, 1, this.#sums, LISTED);
  }

  /** Say that there are no more columns. */
  end(): PaidSums {
    this.endColumn();
    const [first, second, third, fourth] = this.#sums;
    return {
      totals: [first!, second!, third!, fourth!],
      lineCount: this.#lineCount,
      hasListDifference: this.#hasListDifference,
    };
  }
}

/** Add four elements of a line to sums; those before (from one on) and after them only have to be digits. */
function addNumbers(
  block: SegmentBlock,
  view: DataView,
  line: number,
  from: number,
  before: number,
  sums: Float64Array,
  sumsAt: number,
): boolean {
  const { table, lineCount } = block.parts;
  const row = line * ROW.size;
  const firstMark = (lineCount + 1) * ROW.size + table[row + ROW.firstMark]! - 1;
  const elementCount = table[row + ROW.size + ROW.firstMark]! - table[row + ROW.firstMark]!;
  let isPlain = true;
  let summed = -before;
  for (let position = from; position <= elementCount; position++, summed++) {
    const start = table[firstMark + position]! + 1;
    const end = position < elementCount ? table[firstMark + position + 1]! : table[row + ROW.contentEnd]!;
    let value = parseShortNumber(view, start, end);
    if (value < 0) {
      if (start < end) isPlain = false;
      value = block.number(line, position) ?? Number.NaN;
    }
    if (summed >= 0 && summed < SUMMED) sums[sumsAt + summed] = sums[sumsAt + summed]! + value;
  }
  for (summed = Math.max(summed, 0); summed < SUMMED; summed++) sums[sumsAt + summed] = Number.NaN;
  return isPlain;
}
