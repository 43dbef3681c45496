/**
 * CRC-16/ARC (polynomial 8005h reflected, initial value 0, no final XOR), one bit at a time, straight from the entry in
 * the published catalogue of parametrised CRC algorithms. Shares nothing with the code under test, so that it can check it.
 *
 * @returns the CRC, 0 to FFFFh; of the ASCII text `123456789` it is BB3Dh
 */
export function crc16Bitwise(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return crc;
}

/** Four upper-case hex digits, most significant byte first. */
export function writeHex16(value: number): string {
  return value.toString(16).toUpperCase().padStart(4, '0');
}

/** The two bytes of a 16-bit value exchanged, as level 5 writes a CRC. */
export function swapBytes16(value: number): number {
  return ((value & 0xff) << 8) | (value >>> 8);
}
