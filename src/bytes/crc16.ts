const POLYNOMIAL_REFLECTED = 0xa001; // 8005h with its bits reversed
const TABLE = makeTable();

function makeTable(): Uint16Array {
  const table = new Uint16Array(256);
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ POLYNOMIAL_REFLECTED : crc >>> 1;
    table[byte] = crc;
  }
  return table;
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
  if (end - start < WORTH_FOLDING) return crcByTable(bytes, start, end, crc);
  const foldEnd = end - ((end - start) % FOLD_BYTES);
  return crcByTable(bytes, foldEnd, end, crcByFolding(bytes, start, foldEnd, crc));
}

function crcByTable(bytes: Uint8Array, start: number, end: number, crc: number): number {
  let value = crc;
  for (let at = start; at < end; at++) value = (value >>> 8) ^ TABLE[(value ^ bytes[at]!) & 0xff]!;
  return value;
}

/** Sixteen words of 32 bits are folded at a time. */
const FOLD_BYTES = 64;
const WORTH_FOLDING = 2 * FOLD_BYTES;
const LAST_BYTES = new Uint8Array(FOLD_BYTES);
const LAST_WORDS = new DataView(LAST_BYTES.buffer);

/**
 * The same for a multiple of 64 bytes, four bytes at a time.
 *
 * The polynomial P(x) = x^16 + x^15 + x^2 + 1 divides P(x)^32, which modulo 2 is P(x^32) = x^512 + x^480 + x^64 + 1.
 * So a 32-bit word may be taken out of the message if it is added, as it is, to the words 1, 14 and 16 places on: the
 * remainder stays the same. When all but the last sixteen are taken out, the CRC of those is the CRC of all.
 */
function crcByFolding(bytes: Uint8Array, start: number, end: number, crc: number): number {
  const words = new DataView(bytes.buffer, bytes.byteOffset + start, end - start);
  let w0 = crc;
  let w1 = 0;
  let w2 = 0;
  let w3 = 0;
  let w4 = 0;
  let w5 = 0;
  let w6 = 0;
  let w7 = 0;
  let w8 = 0;
  let w9 = 0;
  let w10 = 0;
  let w11 = 0;
  let w12 = 0;
  let w13 = 0;
  let w14 = 0;
  let w15 = 0;
  // Each word takes in what was 16, 14 and 1 places before it, and the place of the first of these.
  for (let at = 0; at < words.byteLength; at += FOLD_BYTES) {
    w0 = words.getInt32(at, true) ^ w2 ^ w0 ^ w15;
    w1 = words.getInt32(at + 4, true) ^ w3 ^ w1 ^ w0;
    w2 = words.getInt32(at + 8, true) ^ w4 ^ w2 ^ w1;
    w3 = words.getInt32(at + 12, true) ^ w5 ^ w3 ^ w2;
    w4 = words.getInt32(at + 16, true) ^ w6 ^ w4 ^ w3;
    w5 = words.getInt32(at + 20, true) ^ w7 ^ w5 ^ w4;
    w6 = words.getInt32(at + 24, true) ^ w8 ^ w6 ^ w5;
    w7 = words.getInt32(at + 28, true) ^ w9 ^ w7 ^ w6;
    w8 = words.getInt32(at + 32, true) ^ w10 ^ w8 ^ w7;
    w9 = words.getInt32(at + 36, true) ^ w11 ^ w9 ^ w8;
    w10 = words.getInt32(at + 40, true) ^ w12 ^ w10 ^ w9;
    w11 = words.getInt32(at + 44, true) ^ w13 ^ w11 ^ w10;
    w12 = words.getInt32(at + 48, true) ^ w14 ^ w12 ^ w11;
    w13 = words.getInt32(at + 52, true) ^ w15 ^ w13 ^ w12;
    w14 = words.getInt32(at + 56, true) ^ w0 ^ w14 ^ w13;
    w15 = words.getInt32(at + 60, true) ^ w1 ^ w15 ^ w14;
  }
  // The last sixteen stay in, so what they gave to each other is taken back.
  const last = [
    w0,
    w1 ^ w0,
    w2 ^ w1,
    w3 ^ w2,
    w4 ^ w3,
    w5 ^ w4,
    w6 ^ w5,
    w7 ^ w6,
    w8 ^ w7,
    w9 ^ w8,
    w10 ^ w9,
    w11 ^ w10,
    w12 ^ w11,
    w13 ^ w12,
    w14 ^ w13 ^ w0,
    w15 ^ w14 ^ w1,
  ];
  for (let i = 0; i < last.length; i++) LAST_WORDS.setInt32(4 * i, last[i]!, true);
  return crcByTable(LAST_BYTES, 0, FOLD_BYTES, 0);
}

/** Write a CRC as four upper-case hexadecimal digits, most significant first. */
export function formatCrc(crc: number): string {
  return crc.toString(16).toUpperCase().padStart(4, '0');
}

/** The same CRC with its two bytes exchanged, as level 5.0 machines write it (manual L0190D, p. 42). */
export function swapCrcBytes(crc: number): number {
  return ((crc & 0xff) << 8) | (crc >>> 8);
}
