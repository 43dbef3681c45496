/** Files up to this size are read at once, longer ones a piece at a time, so that memory stays flat. */
const PIECE = 1024 * 1024;
/** More than this is not unpacked: a small file can be made to unpack to terabytes. */
export const MOST_UNPACKED = 64 * 1024 * 1024;

/** A file that can not be read, in words that can stand after "could not be read". */
export class FileProblem extends Error {}

/** Whether a file begins as gzip does (RFC 1952). */
export function isPacked(head: Uint8Array): boolean {
  return head[0] === 0x1f && head[1] === 0x8b;
}

/**
 * The bytes of a file in pieces, unpacked where it is gzip.
 *
 * @param known - all of its bytes, where they have been read already
 * @param mostUnpacked - a packed file that holds more than this is refused there
 * @throws FileProblem when the browser can not read or unpack it
 */
export async function* readFileChunks(
  file: Blob,
  known: Uint8Array | null = null,
  mostUnpacked = MOST_UNPACKED,
): AsyncGenerator<Uint8Array> {
  if (known !== null && !isPacked(known)) {
    yield known;
    return;
  }
  let isFirst = true;
  for (let from = 0; from < file.size || isFirst; from += PIECE) {
    const piece = await readPiece(file, from);
    if (isFirst && isPacked(piece)) {
      yield* unpack(file, mostUnpacked);
      return;
    }
    isFirst = false;
    yield piece;
  }
}

/** All bytes of a file. */
export async function readBytes(file: Blob): Promise<Uint8Array> {
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    throw new FileProblem('the browser may not read it, or it is no longer there');
  }
}

function readPiece(file: Blob, from: number): Promise<Uint8Array> {
  return readBytes(from === 0 && file.size <= PIECE ? file : file.slice(from, from + PIECE));
}

async function* unpack(file: Blob, most: number): AsyncGenerator<Uint8Array> {
  if (typeof DecompressionStream === 'undefined') throw new FileProblem('this browser can not unpack gzip');
  const reader = file.stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      size += value.length;
      if (size > most) throw new FileProblem(`unpacked it is more than ${Math.floor(most / 1024 / 1024)} MB`);
      yield value;
    }
  } catch (error) {
    throw error instanceof FileProblem ? error : new FileProblem('it is gzip-compressed, and damaged or cut short');
  } finally {
    reader.cancel().catch(() => undefined);
  }
}
