import type { Finding } from '../findings/index.js';
import { type Read, streamReads } from '../read/index.js';
import { sayUnreadable } from './file-problem.js';
import { readCaptureChunks } from './read-capture-chunks.js';
import type { Workplace } from './workplace.js';

/**
 * The reads of a file as its bytes come in. The generator's return value holds what is found about the file as a whole; one
 * that can not be read, or breaks off in the middle, is said so there.
 */
export async function* streamFile(file: string, workplace: Workplace): AsyncGenerator<Read, readonly Finding[]> {
  const reads = streamReads(readCaptureChunks(file, workplace));
  for (;;) {
    let next: Awaited<ReturnType<typeof reads.next>>;
    try {
      next = await reads.next();
    } catch (error) {
      return [sayUnreadable(file, error)];
    }
    if (next.done) return next.value.findings.map((finding) => ({ file, ...finding }));
    yield next.value;
  }
}
