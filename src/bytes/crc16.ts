// Eight tables let eight bytes be folded in at a time ("slicing"): TABLES[k][b] is the CRC of byte b followed by k zero
// bytes. One lookup a byte remains, but the eight no longer wait for each other.
const POLYNOMIAL_REFLECTED = 0xa001; // 8005h with its bits reversed
const [T0, T1, T2, T3, T4, T5, T6, T7] = makeTables() as [
  Uint16Array,
  Uint16Array,
  Uint16Array,
  Uint16Array,
  Uint16Array,
  Uint16Array,
  Uint16Array,
  Uint16Array,
];

function makeTables(): Uint16Array[] {
  const tables = Array.from({ length: 8 }, () => new Uint16Array(256));
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ POLYNOMIAL_REFLECTED : crc >>> 1;
    tables[0]![byte] = crc;
  }
  for (let zeros = 1; zeros < 8; zeros++) {
    for (let byte = 0; byte < 256; byte++) {
      const crc = tables[zeros - 1]![byte]!;
      tables[zeros]![byte] = (crc >>> 8) ^ tables[0]![crc & 0xff]!;
    }
  }
  return tables;
}

/**
 * CRC-16/ARC (polynomial 8005h, reflected, initial value 0, no final XOR) over `bytes` from `start` up to `end`,
 * carried on from `crc`.
 *
 * @param crc - the value of the bytes before, 0 at the beginning
 * @returns the value, 0 to FFFFh
 * @see the catalogue of parametrised CRC algorithms, "CRC-16/ARC": its check value for `123456789` is BB3Dh
 * @example crc16(new TextEncoder().encode('123456789')) // 0xbb3d
 */
export function crc16(bytes: Uint8Array, start = 0, end = bytes.length, crc = 0): number {
  let i = start;
  for (const last = end - 7; i < last; i += 8) {
    crc =
      T7[bytes[i]! ^ (crc & 0xff)]! ^
      T6[bytes[i + 1]! ^ (crc >>> 8)]! ^
      T5[bytes[i + 2]!]! ^
      T4[bytes[i + 3]!]! ^
      T3[bytes[i + 4]!]! ^
      T2[bytes[i + 5]!]! ^
      T1[bytes[i + 6]!]! ^
      T0[bytes[i + 7]!]!;
  }
  for (; i < end; i++) crc = (crc >>> 8) ^ T0[(crc ^ bytes[i]!) & 0xff]!;
  return crc;
}

/** Write a CRC as four upper-case hexadecimal digits, most significant first. */
export function formatCrc(crc: number): string {
  return crc.toString(16).toUpperCase().padStart(4, '0');
}

/** The same CRC with its two bytes exchanged, as level 5.0 machines write it (manual L0190D, p. 42). */
export function swapCrcBytes(crc: number): number {
  return ((crc & 0xff) << 8) | (crc >>> 8);
}
