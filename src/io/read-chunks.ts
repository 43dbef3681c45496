import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { onDisk } from './byte-name.js';
import { pathOf, STANDARD_INPUT, type Workplace } from './workplace.js';

/** Files up to this size are read at once; longer ones, and pipes, a piece at a time. */
const READ_AT_ONCE = 1024 * 1024;
const PIECE = 256 * 1024;

/**
 * The bytes of a file, or of standard input, in pieces: memory stays flat however long the file.
 *
 * @throws the system's error when the file can not be opened or read; see `sayUnreadable`
 */
export async function* readChunks(file: string, workplace: Workplace): AsyncGenerator<Uint8Array> {
  if (file === STANDARD_INPUT) {
    for await (const chunk of workplace.stdin) yield typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    return;
  }
  const path = onDisk(pathOf(file, workplace));
  const found = await stat(path);
  if (found.isFile() && found.size <= READ_AT_ONCE) yield await readFile(path);
  else yield* createReadStream(path, { highWaterMark: PIECE });
}
