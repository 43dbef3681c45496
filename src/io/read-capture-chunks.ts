import { readChunks } from './read-chunks.js';
import { isPacked, LARGEST_UNPACKED, unpackCapture } from './unpack.js';
import type { Workplace } from './workplace.js';

/**
 * The bytes of a capture file in pieces, unpacked where it is gzip (RFC 1952), as the book and the driver's page take it. One
 * that is damaged, or too large to unpack, comes as it is: nothing in it is a capture.
 *
 * @throws the system's error when the file can not be opened or read; see `sayUnreadable`
 */
export async function* readCaptureChunks(file: string, workplace: Workplace): AsyncGenerator<Uint8Array> {
  let packed: Uint8Array[] | null = null;
  let size = 0;
  for await (const chunk of readChunks(file, workplace)) {
    if (size === 0 && isPacked(chunk)) packed = [];
    size += chunk.length;
    if (packed === null) yield chunk;
    else packed.push(chunk);
    // What is larger than it may be when unpacked is not gathered.
    if (packed !== null && size > LARGEST_UNPACKED) {
      yield* packed;
      packed = null;
    }
  }
  if (packed === null) return;
  const bytes = Buffer.concat(packed);
  const content = unpackCapture(bytes);
  yield 'bytes' in content ? content.bytes : bytes;
}
