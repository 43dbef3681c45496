const DIGITS_OF_WORD = 4;
const ZEROS = 0x30303030;

/** Longest number that {@link parseShortNumber} takes. */
export const LONGEST_SHORT = 2 * DIGITS_OF_WORD;

/**
 * The number written in one to eight digits, read four bytes at a time: no branch hangs on how many digits there are, which
 * a processor would guess wrong in one number out of two.
 *
 * @param bytes - with at least eight bytes before `end`
 * @returns -1 when there are no digits, too many, or anything else
 */
export function parseShortNumber(bytes: DataView, start: number, end: number): number {
  const length = end - start;
  if (length < 1 || length > LONGEST_SHORT || end < LONGEST_SHORT) return -1;
  if (length <= DIGITS_OF_WORD) return parseWord(bytes.getInt32(end - 4, true), length);
  const high = parseWord(bytes.getInt32(end - 8, true), length - DIGITS_OF_WORD);
  const low = parseWord(bytes.getInt32(end - 4, true), DIGITS_OF_WORD);
  return high < 0 || low < 0 ? -1 : high * 10_000 + low;
}

/** The number in the last `length` characters of a word, whose first character is its lowest byte. */
function parseWord(word: number, length: number): number {
  // A digit becomes its value, and what stands before the number becomes 0.
  const digits = (word ^ ZEROS) & (-1 << (8 * (DIGITS_OF_WORD - length)));
  // 76h more takes a byte above 9 to 80h or above.
  if (((digits | ((digits & 0x7f7f7f7f) + 0x76767676)) & 0x80808080) !== 0) return -1;
  // The lowest byte of each half is then ten times one digit and the next one.
  const pairs = Math.imul(digits, 10) + (digits >>> 8);
  return (pairs & 0xff) * 100 + ((pairs >>> 16) & 0xff);
}
