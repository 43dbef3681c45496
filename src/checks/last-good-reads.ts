import { SEGMENTS, type SegmentId } from '../dictionary/index.js';
import type { MachineKey } from '../model/index.js';
import type { Read } from '../read/index.js';
import type { LastGoodRead } from './check.js';

/** What is kept of a good read, without its bytes: which segments and columns it had, when, and how its integrity value fitted. */
export function outlineRead(read: Read): LastGoodRead {
  const segments = new Set<SegmentId>(SEGMENTS.filter(({ id }) => read.has(id)).map(({ id }) => id));
  return {
    clock: read.clock,
    columns: read.columns.map(({ id }) => ({ id })),
    has: (id) => segments.has(id),
    integrity: { variants: read.integrity.variants },
  };
}

/** Remembers the last good read of every machine, by its key: see `machineKey`. A read without one is of no machine. */
export class LastGoodReads {
  readonly #outlines = new Map<MachineKey, LastGoodRead>();

  /** The last good read of a machine; null when there is none. */
  find(key: MachineKey | null): LastGoodRead | null {
    return key === null ? null : (this.#outlines.get(key) ?? null);
  }

  /** Remember a good read. */
  keep(key: MachineKey | null, read: Read): void {
    if (key !== null) this.#outlines.set(key, outlineRead(read));
  }
}
