import { SEGMENTS } from './dictionary.js';

/** Number given to a segment that the dictionary does not know. */
export const UNKNOWN_SEGMENT = -1;

const SHORTEST = 2;
const LONGEST = 4;

// Packed into one integer an identifier is found without making a string: this runs once for every line of every capture.
// The multiplier was searched for, so that no two identifiers of the dictionary fall into the same slot (a test says so).
const SLOT_BITS = 8;
const MULTIPLIER = 0xd467dc29;
const keys = new Int32Array(1 << SLOT_BITS);
const indexes = new Int8Array(1 << SLOT_BITS).fill(UNKNOWN_SEGMENT);

const slotOf = (key: number): number => Math.imul(key, MULTIPLIER) >>> (32 - SLOT_BITS);

for (const { id, index } of SEGMENTS) {
  let key = 0;
  for (let i = 0; i < id.length; i++) key |= id.charCodeAt(i) << (8 * i);
  keys[slotOf(key)] = key;
  indexes[slotOf(key)] = index;
}

/**
 * The dictionary's number of the segment whose identifier stands in `bytes` from `start` up to `end`.
 *
 * @returns an index into `SEGMENTS`, or {@link UNKNOWN_SEGMENT}
 */
export function lookUpSegment(bytes: DataView, start: number, end: number): number {
  const length = end - start;
  if (length < SHORTEST || length > LONGEST) return UNKNOWN_SEGMENT;
  const key = start + LONGEST <= bytes.byteLength ? readKey(bytes, start, length) : readLastKey(bytes, start, end);
  const slot = slotOf(key);
  // A NUL at the end leaves no trace in the key but that its last byte is 0.
  return keys[slot] === key && key >>> (8 * (length - 1)) !== 0 ? indexes[slot]! : UNKNOWN_SEGMENT;
}

function readKey(bytes: DataView, start: number, length: number): number {
  return bytes.getInt32(start, true) & (-1 >>> (8 * (LONGEST - length)));
}

/** The same where the bytes end before four could be read at once. */
function readLastKey(bytes: DataView, start: number, end: number): number {
  let key = 0;
  for (let at = end - 1; at >= start; at--) key = (key << 8) | bytes.getUint8(at);
  return key;
}
