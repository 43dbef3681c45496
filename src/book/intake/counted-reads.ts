import type { Read } from '../../read/index.js';
import type { ReadToRecord } from '../store/index.js';

/** The reads of a file on their way to the book: made one by one as they are asked for, and counted. */
export class CountedReads implements Iterable<ReadToRecord> {
  readonly #reads: () => Iterable<Read>;
  readonly #make: (read: Read) => ReadToRecord;
  #made: readonly ReadToRecord[] | null = null;
  #count = 0;

  constructor(reads: () => Iterable<Read>, make: (read: Read) => ReadToRecord) {
    this.#reads = reads;
    this.#make = make;
  }

  /** How many were made when they were last asked for. */
  get count(): number {
    return this.#count;
  }

  /** Make them now, for a file with few, so that no time is spent on that while others wait for the book. */
  makeAll(): void {
    this.#made = [...this];
  }

  *[Symbol.iterator](): Generator<ReadToRecord> {
    if (this.#made !== null) return yield* this.#made;
    this.#count = 0;
    for (const read of this.#reads()) {
      this.#count++;
      yield this.#make(read);
    }
  }
}
