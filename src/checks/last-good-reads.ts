import { SEGMENTS, type SegmentId } from '../dictionary/index.js';
import type { Read } from '../read/index.js';
import type { LastGoodRead } from './check.js';

/** What is kept of a good read, without its bytes: which segments and columns it had, and when. */
export function outlineRead(read: Read): LastGoodRead {
  const segments = new Set<SegmentId>(SEGMENTS.filter(({ id }) => read.has(id)).map(({ id }) => id));
  return {
    clock: read.clock,
    columns: read.columns.map(({ id }) => ({ id })),
    has: (id) => segments.has(id),
  };
}

/** Remembers the last good read of every machine, by what a machine gives of itself. */
export class LastGoodReads {
  readonly #outlines = new Map<string, LastGoodRead>();

  /** The last good read of the machine that a read is of; null when there is none, or the read does not say whose it is. */
  find(read: Read): LastGoodRead | null {
    const key = keyOf(read);
    return key === null ? null : (this.#outlines.get(key) ?? null);
  }

  /** Remember a good read. */
  keep(read: Read): void {
    const key = keyOf(read);
    if (key !== null) this.#outlines.set(key, outlineRead(read));
  }
}

function keyOf(read: Read): string | null {
  const { asset, serial } = read.machine;
  if (asset !== null) return `asset ${asset}`;
  return serial === null ? null : `serial ${serial}`;
}
