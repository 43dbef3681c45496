/**
 * How a table of lines is laid out: one row of numbers a line, then a row of which only `start` and `firstMark` count (where
 * the lines and their marks end), then the marks: the index of every `*`.
 *
 * `start` and `contentEnd` are indexes into the bytes. A line's marks begin at number `firstMark` of all and end before those
 * of the next line. `kind` is kept {@link KIND_SHIFT} higher than it is, so that no number is below 0.
 */
export const ROW = { start: 0, contentEnd: 1, firstMark: 2, kind: 3, size: 4 } as const;

export const KIND_SHIFT = 3;

/** Small numbers take half the room, and room is time. */
export type LineTable = Uint16Array | Int32Array;

const LARGEST_SMALL = 0xffff;

/** A table for bytes of that length. */
export function makeTable(numbers: number, byteLength: number): LineTable {
  return byteLength <= LARGEST_SMALL ? takeSmallTable(numbers) : new Int32Array(numbers);
}

// Small tables are cut from a larger one, because making an array costs more than filling it.
const POOL_NUMBERS = 32_768;
const LARGEST_POOLED = POOL_NUMBERS / 8;
let pool = new Uint16Array(0);
let used = 0;

function takeSmallTable(numbers: number): Uint16Array {
  if (numbers > LARGEST_POOLED) return new Uint16Array(numbers);
  if (used + numbers > pool.length) {
    pool = new Uint16Array(POOL_NUMBERS);
    used = 0;
  }
  const table = pool.subarray(used, used + numbers);
  used += numbers;
  return table;
}
