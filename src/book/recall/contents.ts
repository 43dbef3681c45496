import { isTaken, type PlacedRead, type TakenRead } from '../../interval/index.js';
import type { BookRead } from '../store/index.js';
import type { Recall } from './recall.js';

/**
 * Contents of reads that are needed now and then, as where two reads are held against each other that do not stand next to
 * each other. What is asked for and not at hand is noted, so that it can be loaded and the work be done again.
 */
export class Contents {
  readonly #recall: Recall;
  readonly #loaded = new Map<BookRead, TakenRead>();
  readonly #missing = new Set<BookRead>();

  constructor(recall: Recall) {
    this.#recall = recall;
  }

  /** Looks contents up, null where they are not at hand (yet). */
  of(rowOf: ReadonlyMap<PlacedRead, BookRead>): (placed: PlacedRead) => TakenRead | null {
    return (placed) => {
      if (isTaken(placed)) return placed;
      const row = rowOf.get(placed);
      const found = row === undefined ? undefined : this.#loaded.get(row);
      if (found === undefined && row !== undefined) this.#missing.add(row);
      return found ?? null;
    };
  }

  /** Load contents before they are asked for. */
  async load(rows: Iterable<BookRead>): Promise<void> {
    const wanted = [...rows].filter((row) => !this.#loaded.has(row));
    for (const [i, taken] of (await this.#recall.takeReads(wanted)).entries()) this.#loaded.set(wanted[i]!, taken);
  }

  /** Do some work; again, with their contents, where it asked for some that were not at hand. */
  async during<T>(work: () => T): Promise<T> {
    for (;;) {
      const done = work();
      if (this.#missing.size === 0) return done;
      const wanted = [...this.#missing];
      this.#missing.clear();
      await this.load(wanted);
    }
  }
}
