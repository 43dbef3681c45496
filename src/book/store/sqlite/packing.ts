import { constants } from 'node:buffer';
import { deflateRawSync, inflateRawSync } from 'node:zlib';

/** How bytes lie in the database: as they are, or deflated (RFC 1951). The numbers are stored. */
export const PACKING = { plain: 0, deflated: 1 } as const;

/** Bytes as they are stored. */
export interface Packed {
  readonly packing: number;
  readonly bytes: Uint8Array;
}

/** Below this nothing worth the time is saved. A capture of 4.5 KB takes 1.1 KB, and some 60 microseconds to deflate. */
const SMALLEST_DEFLATED = 512;

/** Bytes as they shall be stored: deflated where that is worth the time and makes them smaller. */
export function packBytes(bytes: Uint8Array): Packed {
  if (bytes.length < SMALLEST_DEFLATED) return { packing: PACKING.plain, bytes };
  const deflated = deflateRawSync(bytes);
  return deflated.length < bytes.length
    ? { packing: PACKING.deflated, bytes: deflated }
    : { packing: PACKING.plain, bytes };
}

/**
 * Stored bytes as they came. Null when they can not be unpacked, which is for the caller to tell.
 *
 * @param limit - no more bytes than that are unpacked: what claims to be more is not what was packed
 */
export function unpackBytes({ packing, bytes }: Packed, limit: number): Uint8Array | null {
  if (packing === PACKING.plain) return bytes;
  try {
    // A part of a file of many gigabytes is small; the library refuses a limit above what a buffer can hold.
    return inflateRawSync(bytes, { maxOutputLength: Math.max(1, Math.min(limit, constants.MAX_LENGTH)) });
  } catch {
    return null;
  }
}
