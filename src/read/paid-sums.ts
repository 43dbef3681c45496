import type { SegmentBlock } from '../segments/index.js';

/** What the columns of a read have sold, summed up. NaN is a sum of which a part is absent or no number. */
export interface PaidSums {
  /** PA201 to PA204 over all columns. */
  readonly totals: readonly number[];
  /** How many columns have a PA2. */
  readonly lineCount: number;
  /** False when no column's PA2 differs from the sum of its PA7, all price lists taken for paid ones. */
  readonly mayListsDiffer: boolean;
}

const ZERO = 0x30;
const STAR = 0x2a;
/** So many digits can always be kept exactly. */
const SAFE_DIGITS = 15;
/** Number and value since initialisation, number and value since the last reset. */
const SUMMED = 4;
/** Where the sums stand in the working space: all columns, all columns before this one, this column's price lists. */
const TOTALS = 0;
const BEFORE = SUMMED;
const LISTED = 2 * SUMMED;
/** PA704 is a price; what is summed follows it. */
const LISTED_FROM = 4;

/**
 * Sums up PA2 and PA7 as their lines are looked at: each byte of them has to be seen to be a digit anyway, and the cross
 * totals want the sums of every read. Keeps its working space from read to read.
 */
export class PaidSummer {
  readonly #sums = new Float64Array(3 * SUMMED);
  #lineCount = 0;
  #mayListsDiffer = false;
  /** The column's PA2 when all its elements are plain digits, else -1; and whether it has one. */
  #plainLine = -1;
  #hasPaid = false;
  /** Whether the one PA7 of the column so far says just what its PA2 does, letter by letter. */
  #isCopy = false;
  #hasListed = false;

  /** Start on another read. */
  start(): void {
    this.#sums.fill(0);
    this.#lineCount = 0;
    this.#mayListsDiffer = false;
    this.#hasPaid = false;
    this.endColumn();
  }

  /** Say that the lines of another column follow. */
  endColumn(): void {
    if (this.#hasListed && this.#hasPaid && !this.#isCopy) this.#compare();
    this.#plainLine = -1;
    this.#hasPaid = false;
    this.#hasListed = false;
    this.#isCopy = false;
  }

  #compare(): void {
    const sums = this.#sums;
    for (let at = 0; at < SUMMED; at++) {
      // NaN too: what came before is not known, so this column's own is not.
      if (sums[TOTALS + at]! - sums[BEFORE + at]! !== sums[LISTED + at]) this.#mayListsDiffer = true;
    }
  }

  /**
   * Take the PA2 of a column.
   *
   * @returns whether all its elements are plain digits, so that there is nothing to say of any of them
   */
  addPaid(block: SegmentBlock, line: number): boolean {
    const sums = this.#sums;
    for (let at = 0; at < SUMMED; at++) sums[BEFORE + at] = sums[TOTALS + at]!;
    this.#lineCount++;
    this.#hasPaid = true;
    const isPlain = addNumbers(block, line, 1, 0, sums, TOTALS);
    if (isPlain) this.#plainLine = line;
    return isPlain;
  }

  /** Take a PA7 of a column. Returns what {@link addPaid} does, for the elements that must be numbers. */
  addListed(block: SegmentBlock, line: number): boolean {
    const sums = this.#sums;
    if (!this.#hasListed) {
      this.#hasListed = true;
      this.#isCopy = this.#plainLine >= 0 && isCopy(block, line, this.#plainLine);
      if (this.#isCopy) return isPlainPrice(block, line);
      for (let at = 0; at < SUMMED; at++) sums[LISTED + at] = 0;
    } else if (this.#isCopy) {
      this.#isCopy = false;
      for (let at = 0; at < SUMMED; at++) sums[LISTED + at] = sums[TOTALS + at]! - sums[BEFORE + at]!;
    }
    return addNumbers(block, line, LISTED_FROM, 1, sums, LISTED);
  }

  /** Say that there are no more columns. */
  end(): PaidSums {
    this.endColumn();
    const [first, second, third, fourth] = this.#sums;
    return {
      totals: [first!, second!, third!, fourth!],
      lineCount: this.#lineCount,
      mayListsDiffer: this.#mayListsDiffer,
    };
  }
}

/** Whether what follows the price in a PA7 is the same text as all the elements of a PA2, and both are whole. */
function isCopy(block: SegmentBlock, listed: number, paid: number): boolean {
  if (block.elementCount(paid) !== SUMMED || block.elementCount(listed) !== LISTED_FROM + SUMMED) return false;
  const { bytes } = block;
  const end = block.contentEnd(paid);
  let at = block.elementStart(paid, 1);
  let other = block.elementStart(listed, LISTED_FROM + 1);
  if (end - at !== block.contentEnd(listed) - other) return false;
  while (at < end && bytes[at] === bytes[other]) {
    at++;
    other++;
  }
  return at === end;
}

/** Whether PA704 is empty or a number that can be kept: the rest of the line was seen to be. */
function isPlainPrice(block: SegmentBlock, line: number): boolean {
  const { bytes } = block;
  const start = block.elementStart(line, LISTED_FROM);
  const end = block.elementEnd(line, LISTED_FROM);
  for (let at = start; at < end; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit < 0 || digit > 9) return false;
  }
  return end - start <= SAFE_DIGITS;
}

/** Add four elements of a line to sums; those before (from one on) and after them only have to be digits. */
function addNumbers(
  block: SegmentBlock,
  line: number,
  from: number,
  before: number,
  sums: Float64Array,
  sumsAt: number,
): boolean {
  const { bytes } = block;
  const end = block.contentEnd(line);
  let isPlain = true;
  let summed = -before;
  // Past the end when there is no such element.
  let at = from > block.elementCount(line) ? end + 1 : block.elementStart(line, from);
  while (at <= end) {
    const start = at;
    let value = 0;
    for (; at < end; at++) {
      const digit = bytes[at]! - ZERO;
      if (digit < 0 || digit > 9) break;
      value = value * 10 + digit;
    }
    const isShort = (at === end || bytes[at] === STAR) && at - start <= SAFE_DIGITS;
    if (!isShort) {
      isPlain = false;
      while (at < end && bytes[at] !== STAR) at++;
    }
    if (summed >= 0 && summed < SUMMED) {
      if (!isShort || at === start) value = block.number(line, from + before + summed) ?? Number.NaN;
      sums[sumsAt + summed] = sums[sumsAt + summed]! + value;
    }
    summed++;
    at++;
  }
  for (summed = Math.max(summed, 0); summed < SUMMED; summed++) sums[sumsAt + summed] = Number.NaN;
  return isPlain;
}
