import { createHash } from 'node:crypto';
import { readInPieces } from './read-bytes.js';

/** A file is not what it was when it was looked through. */
export class FileChanged extends Error {}

/**
 * Read a file piece by piece that was looked through before.
 *
 * @param sha256 - what it was then, lower-case hex
 * @throws FileChanged, at the end of it, when it is not that any more, or can not be read any more
 */
export function* readAgain(path: string, sha256: string): Generator<Uint8Array> {
  const hash = createHash('sha256');
  const pieces = readInPieces(path);
  for (let next = readNext(pieces); !next.done; next = readNext(pieces)) {
    hash.update(next.value);
    yield next.value;
  }
  if (hash.digest('hex') !== sha256) throw new FileChanged('The file changed while it was recorded.');
}

function readNext(pieces: ReturnType<typeof readInPieces>): ReturnType<typeof pieces.next> {
  try {
    return pieces.next();
  } catch (cause) {
    throw new FileChanged('The file could not be read any more while it was recorded.', { cause });
  }
}
