import type { SegmentBlock } from '../segments/index.js';

const ZERO = 0x30;
const STAR = 0x2a;
const SAFE_DIGITS = 15;
const SUMMED = 4;

/**
 * PA201 to PA204 summed over the columns as their lines are looked at: each byte of them has to be seen to be digits
 * anyway, and the cross totals want the sums of every read.
 */
export class PaidSums {
  /** By position less one. NaN where a column lacks the element or it is no number that can be kept. */
  readonly totals: [number, number, number, number] = [0, 0, 0, 0];
  lineCount = 0;

  /**
   * Add the PA2 of a column.
   *
   * @returns whether all its elements are plain digits, so that there is nothing to say of any of them
   */
  add(block: SegmentBlock, line: number): boolean {
    const { bytes } = block;
    const end = block.contentEnd(line);
    const { totals } = this;
    this.lineCount++;
    // Past the identifier and its `*`; without a `*` there is no element.
    let at = block.start(line) + 4;
    let isPlain = true;
    let position = 0;
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
      if (position < SUMMED) {
        if (!isShort || at === start) value = block.number(line, position + 1) ?? Number.NaN;
        totals[position] = totals[position]! + value;
      }
      position++;
      at++;
    }
    for (; position < SUMMED; position++) totals[position] = Number.NaN;
    return isPlain;
  }
}
