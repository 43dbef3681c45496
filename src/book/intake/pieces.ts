import { type CaptureEnd, CaptureReader, type Read } from '../../read/index.js';

/** Bytes of a piece: what lies in one row of the book when a file is kept in parts. */
export const PIECE = 1024 * 1024;

/** Bytes in memory, piece by piece. */
export function* cutInPieces(bytes: Uint8Array): Generator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
}

/** The reads of a file that comes in pieces, each as soon as it is whole; memory stays flat. */
export function* readPieces(pieces: Iterable<Uint8Array>): Generator<Read, CaptureEnd> {
  const reader = new CaptureReader();
  let ready: Read[] = [];
  const keep = (read: Read): void => {
    ready.push(read);
  };
  for (const piece of pieces) {
    reader.push(piece, keep);
    yield* ready;
    ready = [];
  }
  const end = reader.end(keep);
  yield* ready;
  return end;
}
