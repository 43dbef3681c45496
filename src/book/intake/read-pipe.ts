import { sayNotRead, sayUnreadable } from '../../io/file-problem.js';
import { readChunks } from '../../io/read-chunks.js';
import type { FileContent } from '../../io/read-whole-file.js';
import type { Workplace } from '../../io/workplace.js';

/**
 * Read standard input or a pipe: what can be read only once, and so has to be held until it is recorded.
 *
 * @param largest - most bytes that are held
 */
export async function readPipe(file: string, workplace: Workplace, largest: number): Promise<FileContent> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of readChunks(file, workplace)) {
      size += chunk.length;
      if (size > largest) {
        const reason = `more than ${largest} bytes came from a pipe; save them to a file and take that in`;
        return { content: null, problem: sayNotRead(file, reason) };
      }
      chunks.push(chunk);
    }
  } catch (error) {
    return { content: null, problem: sayUnreadable(file, error) };
  }
  return { content: Buffer.concat(chunks), problem: null };
}
