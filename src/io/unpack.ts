import { gunzipSync } from 'node:zlib';

/** What is in a file that may be packed. The messages are whole sentences about "it", the file. */
export type Unpacked =
  | { readonly state: 'plain'; readonly bytes: Uint8Array }
  | { readonly state: 'unpacked'; readonly bytes: Uint8Array }
  | { readonly state: 'too-large' | 'broken'; readonly message: string };

/** Most bytes that a packed file is unpacked to: a capture is some kilobytes, a day's captures joined some megabytes. */
export const LARGEST_UNPACKED: number = 64 * 1024 * 1024;

/** ID1 and ID2, by which a gzip file is known (RFC 1952, section 2.3.1). */
const SIGNATURE = [0x1f, 0x8b] as const;

/** Whether a file is packed, by the way it begins. No capture does: these are no characters of one. */
export function isPacked(head: Uint8Array): boolean {
  return head[0] === SIGNATURE[0] && head[1] === SIGNATURE[1];
}

/**
 * What is in a file that may be packed with gzip, in one member or several; the same for the same bytes always. Of a packed
 * file that is damaged or breaks off nothing is given out, since what came before the damage can not be told from it.
 *
 * @param limit - no more bytes than that are unpacked, whatever the file makes of itself
 * @see RFC 1952
 */
export function unpackCapture(bytes: Uint8Array, limit: number = LARGEST_UNPACKED): Unpacked {
  if (!isPacked(bytes)) return { state: 'plain', bytes };
  try {
    const unzipped: unknown = gunzipSync(bytes, { maxOutputLength: Math.max(1, limit), info: true });
    const { buffer, engine } = unzipped as Unzipped;
    // Zeros that fill the file up are no part of it; anything else behind the packed data would be lost unseen.
    if (bytes.subarray(engine.bytesWritten).some((byte) => byte !== 0)) return BROKEN;
    return { state: 'unpacked', bytes: buffer };
  } catch (error) {
    const isTooLarge = (error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE';
    return isTooLarge ? sayTooLarge(limit) : BROKEN;
  }
}

/** What is given for the option `info`, which the types do not tell. */
interface Unzipped {
  readonly buffer: Buffer;
  /** `bytesWritten`: how many bytes of the file were used. */
  readonly engine: { readonly bytesWritten: number };
}

const BROKEN: Unpacked = {
  state: 'broken',
  message: 'It is gzip-compressed data that is damaged or breaks off, so that it can not be unpacked.',
};

function sayTooLarge(limit: number): Unpacked {
  const message = `It is gzip-compressed data that would unpack to more than ${limit} bytes; it was not unpacked.`;
  return { state: 'too-large', message };
}
