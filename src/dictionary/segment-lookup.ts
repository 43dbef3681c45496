import { SEGMENTS } from './dictionary.js';

/** Number given to a segment that the dictionary does not know. */
export const UNKNOWN_SEGMENT = -1;

// An identifier has two to four bytes. Packed into one integer it is found in a small open-addressed table without
// making a string: this runs once for every line of every capture.
const SLOTS = 256;
const MULTIPLIER = 0x9e3779b1;
const keys = new Int32Array(SLOTS);
const indexes = new Int8Array(SLOTS).fill(UNKNOWN_SEGMENT);

const slotOf = (key: number): number => Math.imul(key, MULTIPLIER) >>> 24;

for (const { id, index } of SEGMENTS) {
  let key = 0;
  for (let i = 0; i < id.length; i++) key |= id.charCodeAt(i) << (8 * i);
  let slot = slotOf(key);
  while (indexes[slot] !== UNKNOWN_SEGMENT) slot = (slot + 1) % SLOTS;
  keys[slot] = key;
  indexes[slot] = index;
}

/**
 * The dictionary's number of the segment whose identifier stands in `bytes` from `start` up to `end`.
 *
 * @returns an index into `SEGMENTS`, or {@link UNKNOWN_SEGMENT}
 */
export function lookUpSegment(bytes: Uint8Array, start: number, end: number): number {
  const length = end - start;
  // A NUL at the end would leave no trace in the key.
  if (length < 2 || length > 4 || bytes[end - 1] === 0) return UNKNOWN_SEGMENT;
  let key = bytes[start]! | (bytes[start + 1]! << 8);
  if (length > 2) key |= bytes[start + 2]! << 16;
  if (length > 3) key |= bytes[start + 3]! << 24;
  let slot = slotOf(key);
  while (indexes[slot] !== UNKNOWN_SEGMENT) {
    if (keys[slot] === key) return indexes[slot]!;
    slot = (slot + 1) % SLOTS;
  }
  return UNKNOWN_SEGMENT;
}
