import { crc16Bitwise, swapBytes16 } from './crc16-bitwise.js';
import { textOf } from './latin1-bytes.js';

/** A copy of bytes with some bits turned over. Bits are numbered from 0, eight a byte. */
export function flipBits(bytes: Uint8Array, bits: readonly number[]): Uint8Array {
  const flipped = bytes.slice();
  for (const bit of bits) flipped[bit >> 3]! ^= 1 << (bit & 7);
  return flipped;
}

/** Where the integrity value covers: from the S of ST to the line ending before G85. For captures of one set. */
export function coveredRange(bytes: Uint8Array): { readonly from: number; readonly to: number } {
  const text = textOf(bytes);
  return { from: text.indexOf('ST*'), to: text.lastIndexOf('G85*') };
}

/**
 * Whether the value in G85 fits a variant of the reading, by a CRC of its own: exchanged bytes, the range from DXS on, or
 * without the last line ending. The range is where it was before anything was flipped.
 */
export function fitsByChance(bytes: Uint8Array, range: { readonly from: number; readonly to: number }): boolean {
  const value = Number.parseInt(textOf(bytes).slice(range.to + 4, range.to + 8), 16);
  const readings = [
    swapBytes16(crc16Bitwise(bytes.subarray(range.from, range.to))),
    ...[bytes.subarray(0, range.to), bytes.subarray(range.from, range.to - 2)].flatMap((part) => {
      const crc = crc16Bitwise(part);
      return [crc, swapBytes16(crc)];
    }),
  ];
  return readings.includes(value);
}
