/** How many bytes {@link findSpecialBytes} looks at. */
export const SPAN = 32;

/** No byte above this one (`*`) has a meaning of its own. */
const HIGHEST_SPECIAL = 0x2a;

/**
 * Which of the 32 bytes from `at` may be a star, a line ending or a control character: bit i stands for byte `at + i` and is
 * set when that byte is 2Ah or below. Four bytes are compared at once, without a branch that could be guessed wrong.
 *
 * @param end - where the bytes end, perhaps before all 32
 */
export function findSpecialBytes(bytes: DataView, at: number, end: number): number {
  if (at + SPAN > end) return findOneByOne(bytes, at, end);
  return ~(
    findOrdinary(bytes.getInt32(at, true)) |
    (findOrdinary(bytes.getInt32(at + 4, true)) << 4) |
    (findOrdinary(bytes.getInt32(at + 8, true)) << 8) |
    (findOrdinary(bytes.getInt32(at + 12, true)) << 12) |
    (findOrdinary(bytes.getInt32(at + 16, true)) << 16) |
    (findOrdinary(bytes.getInt32(at + 20, true)) << 20) |
    (findOrdinary(bytes.getInt32(at + 24, true)) << 24) |
    (findOrdinary(bytes.getInt32(at + 28, true)) << 28)
  );
}

/** Which of the four bytes of a word are above `*`, in the lowest four bits. */
function findOrdinary(word: number): number {
  // 55h more takes a byte from 2Bh on to 80h or above, and none to 100h, so that the bytes do not touch each other.
  const highestBits = (((word & 0x7f7f7f7f) + 0x55555555) | word) & 0x80808080;
  // The product brings bits 7, 15, 23 and 31 to 28, 29, 30 and 31; no other of its parts gets that far.
  return Math.imul(highestBits, 0x00204081) >>> 28;
}

function findOneByOne(bytes: DataView, at: number, end: number): number {
  let found = 0;
  for (let i = at; i < end; i++) if (bytes.getUint8(i) <= HIGHEST_SPECIAL) found |= 1 << (i - at);
  return found;
}
