import type { Finding } from '../findings/index.js';
import { sayNotRead, sayUnreadable } from './file-problem.js';
import { readChunks } from './read-chunks.js';
import type { Workplace } from './workplace.js';

/** Largest sheet or profile that is read, in bytes: thousands of times a usual one. */
export const LARGEST_SHEET = 64 * 1024 * 1024;

/** The whole of a small file, or why it could not be read. */
export type FileContent =
  | { readonly content: Uint8Array; readonly problem: null }
  | { readonly content: null; readonly problem: Finding };

/** Read an office sheet or a profile whole. A file too large to be one is not read to its end. */
export async function readWholeFile(
  file: string,
  workplace: Workplace,
  largest: number = LARGEST_SHEET,
): Promise<FileContent> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of readChunks(file, workplace)) {
      size += chunk.length;
      if (size > largest) {
        return { content: null, problem: sayNotRead(file, `it is longer than ${largest} bytes, too long for a sheet`) };
      }
      chunks.push(chunk);
    }
  } catch (error) {
    return { content: null, problem: sayUnreadable(file, error) };
  }
  return { content: Buffer.concat(chunks), problem: null };
}
