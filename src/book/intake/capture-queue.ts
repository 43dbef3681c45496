import type { BookStore } from '../store/index.js';
import type { IntakeLimits } from './intake.js';
import type { IntakeTally } from './intake-tally.js';
import type { MadeCapture } from './make-capture.js';
import { noteCopy, putEarliestFirst, type TellingCopies } from './note-copy.js';

/** Files on their way to the book, in order: many are recorded together, since the disk has to confirm each time. */
export class CaptureQueue {
  readonly #store: BookStore;
  readonly #tally: IntakeTally;
  readonly #limits: IntakeLimits;
  readonly #telling: TellingCopies | null;
  #waiting: MadeCapture[] = [];
  #bytes = 0;
  #reads = 0;

  /** @param telling - how copies are told in entries; null: they are not */
  constructor(store: BookStore, tally: IntakeTally, limits: IntakeLimits, telling: TellingCopies | null = null) {
    this.#store = store;
    this.#tally = tally;
    this.#limits = limits;
    this.#telling = telling;
  }

  /** Let a file that is in memory wait for the others; when they are many, all are recorded. */
  async add(made: MadeCapture): Promise<void> {
    if (made.isStreamed) {
      await this.recordApart(made);
      return;
    }
    this.#waiting.push(made);
    this.#bytes += made.capture.size;
    this.#reads += made.reads.count;
    const { filesAtOnce, bytesAtOnce, readsAtOnce } = this.#limits;
    const isFull = this.#waiting.length >= filesAtOnce || this.#bytes >= bytesAtOnce || this.#reads >= readsAtOnce;
    if (isFull) await this.flush();
  }

  /**
   * Record a file by itself, after those before it.
   *
   * @returns whether it was what it was said to be; else nothing of it was recorded
   */
  async recordApart(made: MadeCapture): Promise<boolean> {
    await this.flush();
    const [outcome] = await this.#store.recordCaptures([made.capture]);
    if (outcome!.state === 'changed') return false;
    this.#tally.addOutcome(made, outcome!);
    return true;
  }

  /** Record all that waits. */
  async flush(): Promise<void> {
    if (this.#waiting.length === 0) return;
    const waiting = putEarliestFirst(this.#waiting);
    this.#waiting = [];
    this.#bytes = 0;
    this.#reads = 0;
    const outcomes = await this.#store.recordCaptures(waiting.map(({ capture }) => capture));
    for (const [index, outcome] of outcomes.entries()) {
      const made = waiting[index]!;
      // What is in memory is what it was said to be.
      if (outcome.state !== 'changed') this.#tally.addOutcome(made, outcome);
      if (outcome.state === 'already') await noteCopy(this.#store, outcome.entry, made, this.#telling);
    }
  }
}
