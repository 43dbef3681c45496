import { buildInterval, buildIntervals, type Interval } from '../../interval/index.js';
import { Recall, type RecallOptions } from '../recall/index.js';
import { BookError, type BookInterval, type BookRead, type BookStore, type ReadKey } from '../store/index.js';

/** An interval, and the later of its reads as the book has it: its time tells the day. */
export interface PlacedInterval {
  readonly interval: Interval;
  readonly to: BookRead;
}

/** Reads that are taken from their files at a time, where nothing else is said. */
const READS_AT_ONCE = 200;

/**
 * Intervals with all their figures, made again from the captures themselves by the roster of today; which reads follow each
 * other the book has worked out. Holds no more than some hundred captures at a time.
 */
export class IntervalSource {
  readonly #store: BookStore;
  readonly #options: RecallOptions;
  readonly #readsAtOnce: number;

  constructor(store: BookStore, options: RecallOptions, readsAtOnce = READS_AT_ONCE) {
    this.#store = store;
    this.#options = options;
    this.#readsAtOnce = readsAtOnce;
  }

  /** Intervals as the book has worked them out. */
  async *ofPairs(pairs: AsyncIterable<BookInterval>): AsyncGenerator<PlacedInterval> {
    let batch: { from: BookRead; to: BookRead }[] = [];
    let last: BookRead | null = null;
    for await (const { from, to, machine } of pairs) {
      // Intervals of a machine come in order, so that one mostly begins where the one before it ended.
      const first: BookRead = last !== null && isSame(last, from) ? last : await this.#read(from, machine);
      last = await this.#read(to, machine);
      batch.push({ from: first, to: last });
      if (batch.length * 2 < this.#readsAtOnce) continue;
      yield* await this.#buildPairs(batch);
      batch = [];
    }
    yield* await this.#buildPairs(batch);
  }

  async #buildPairs(pairs: readonly { readonly from: BookRead; readonly to: BookRead }[]): Promise<PlacedInterval[]> {
    const recall = new Recall(this.#store, this.#options);
    const taken = await recall.takeReads(pairs.flatMap(({ from, to }) => [from, to]));
    const { roster } = this.#options.take;
    return pairs.map(({ to }, i) => ({ interval: buildInterval(taken[2 * i]!, taken[2 * i + 1]!, roster), to }));
  }

  async #read({ entry, number }: ReadKey, machine: string | null): Promise<BookRead> {
    for await (const read of this.#store.reads({ entryFrom: entry, entryTo: entry + 1, machine })) {
      if (read.number === number) return read;
    }
    throw new BookError('corrupted', `Read ${number} of entry ${entry} is missing. Verify the book.`);
  }

  /** Intervals of machines whose reads the book has not worked out yet: from all reads they have. */
  async *ofMachines(machines: Iterable<string>): AsyncGenerator<PlacedInterval> {
    let batch: (readonly BookRead[])[] = [];
    let held = 0;
    for (const machine of machines) {
      const reads = await this.#store.readsOf(machine);
      batch.push(reads);
      held += reads.length;
      if (held < this.#readsAtOnce) continue;
      yield* await this.#buildHistories(batch);
      batch = [];
      held = 0;
    }
    yield* await this.#buildHistories(batch);
  }

  async #buildHistories(histories: readonly (readonly BookRead[])[]): Promise<PlacedInterval[]> {
    const taken = await new Recall(this.#store, this.#options).takeReads(histories.flat());
    let done = 0;
    return histories.flatMap((reads) => {
      const own = taken.slice(done, done + reads.length);
      done += reads.length;
      const keptOf = new Map(own.map((one, i) => [one, reads[i]!]));
      const { intervals } = buildIntervals(own, this.#options.take.roster);
      return intervals.map((interval) => ({ interval, to: keptOf.get(interval.to)! }));
    });
  }
}

const isSame = (a: ReadKey, b: ReadKey): boolean => a.entry === b.entry && a.number === b.number;
