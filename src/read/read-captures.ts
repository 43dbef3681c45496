import { type CaptureEnd, CaptureReader } from './capture-reader.js';
import type { Read } from './read.js';
import type { CaptureReaderOptions } from './reader-options.js';

/** A file with all its reads. */
export interface CaptureFile extends CaptureEnd {
  readonly reads: readonly Read[];
}

/**
 * The reads of a file that is in memory whole.
 *
 * @example const { reads, findings } = readCaptures(bytes);
 */
export function readCaptures(bytes: Uint8Array, options: CaptureReaderOptions = {}): CaptureFile {
  const reads: Read[] = [];
  const keep = (read: Read): void => {
    reads.push(read);
  };
  const reader = new CaptureReader(options);
  reader.push(bytes, keep);
  return { ...reader.end(keep), reads };
}

/**
 * The reads of a file that comes in chunks, each as soon as it is whole; memory stays flat. The generator's return value
 * holds the findings about the file.
 *
 * @throws whatever the chunks throw: a failing file or socket is the caller's
 */
export async function* streamReads(
  chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  options: CaptureReaderOptions = {},
): AsyncGenerator<Read, CaptureEnd> {
  const reader = new CaptureReader(options);
  let ready: Read[] = [];
  const keep = (read: Read): void => {
    ready.push(read);
  };
  try {
    for await (const chunk of chunks) {
      reader.push(chunk, keep);
      yield* ready;
      ready = [];
    }
  } catch (failure) {
    reader.breakOff(keep);
    yield* ready;
    throw failure;
  }
  const end = reader.end(keep);
  yield* ready;
  return end;
}
