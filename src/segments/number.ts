const PLUS = 0x2b;
const MINUS = 0x2d;
const ZERO = 0x30;

/** What the characters of a number element turned out to be. */
export type NumberState = 'number' | 'empty' | 'not-digits' | 'too-large';

/**
 * The whole number written in `bytes` from `start` up to `end`: an optional sign, then digits only (domain rule: anything
 * else is a fault of the element, never a zero).
 *
 * @returns the number, or null when nothing is there, it is not all digits, or it is too large to be kept exactly
 */
export function parseWholeNumber(bytes: Uint8Array, start: number, end: number): number | null {
  let at = start;
  if (at >= end) return null;
  const first = bytes[at]!;
  if (first === MINUS || first === PLUS) at++;
  if (at >= end) return null;
  let value = 0;
  for (; at < end; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit < 0 || digit > 9) return null;
    value = value * 10 + digit;
  }
  if (value > Number.MAX_SAFE_INTEGER) return null;
  return first === MINUS && value !== 0 ? -value : value;
}

/** Why {@link parseWholeNumber} gives what it gives for the same bytes. */
export function classifyNumber(bytes: Uint8Array, start: number, end: number): NumberState {
  if (start >= end) return 'empty';
  const sign = bytes[start];
  let at = sign === MINUS || sign === PLUS ? start + 1 : start;
  if (at >= end) return 'not-digits';
  for (; at < end; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit < 0 || digit > 9) return 'not-digits';
  }
  return parseWholeNumber(bytes, start, end) === null ? 'too-large' : 'number';
}
