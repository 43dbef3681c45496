import { readBytes } from './file-chunks.js';

/** Files of up to this size are read whole, several in one go; larger ones a piece at a time. */
export const SMALL_FILE = 1024 * 1024;
const MOST_FILES = 64;
const MOST_BYTES = 8 * 1024 * 1024;

/**
 * Read several files in one go: browsers take far longer to open a file than to read a few kilobytes of it.
 *
 * @returns the bytes of each, null for one that can not be read
 */
export async function readTogether(files: readonly Blob[]): Promise<(Uint8Array | null)[]> {
  const sizes = files.map(({ size }) => size);
  try {
    const all = await readBytes(new Blob([...files]));
    if (all.length === sizes.reduce((sum, size) => sum + size, 0)) return splitBySize(all, sizes);
  } catch {
    // One of them can not be read: each is tried alone.
  }
  return Promise.all(files.map((file) => readBytes(file).catch(() => null)));
}

function splitBySize(all: Uint8Array, sizes: readonly number[]): Uint8Array[] {
  let from = 0;
  return sizes.map((size) => {
    const bytes = all.subarray(from, from + size);
    from += size;
    return bytes;
  });
}

/** Put files into groups that can be read in one go, in their order; a file that is large enough for one is alone in it. */
export function groupFiles<Item>(items: readonly Item[], sizeOf: (item: Item) => number): Item[][] {
  const groups: Item[][] = [];
  let bytes = Number.POSITIVE_INFINITY;
  for (const item of items) {
    const size = sizeOf(item);
    const last = groups.at(-1);
    if (last === undefined || last.length >= MOST_FILES || bytes + size > MOST_BYTES) {
      groups.push([item]);
      bytes = size;
    } else {
      last.push(item);
      bytes += size;
    }
  }
  return groups;
}
