import { buildInterval, gatherHistories, listSteps, type PlacedRead, type Step } from '../../interval/index.js';
import { fitsStep, type KeptRead, unpackGap, unpackStep } from '../kept/index.js';
import { Recall, type RecallOptions } from '../recall/index.js';
import { BookError, type BookRead, type BookStep, type BookStore, type ReadKey } from '../store/index.js';

/** A step, and the later of its reads as the book has it: its time tells the day. */
export interface DatedStep {
  readonly step: Step;
  readonly to: BookRead;
}

/** Reads that are taken up at a time, where nothing else is said. */
const READS_AT_ONCE = 200;

interface Pair {
  readonly kept: BookStep;
  readonly from: BookRead;
  readonly to: BookRead;
}

/**
 * Steps as the book keeps them; those that do not fit what they rest on are worked out from their captures. Holds no more than
 * some hundred reads at a time.
 */
export class StepSource {
  readonly #store: BookStore;
  readonly #options: RecallOptions;
  readonly #readsAtOnce: number;

  constructor(store: BookStore, options: RecallOptions, readsAtOnce = READS_AT_ONCE) {
    this.#store = store;
    this.#options = options;
    this.#readsAtOnce = readsAtOnce;
  }

  /** Steps as the book has worked them out. */
  async *ofKept(steps: AsyncIterable<BookStep>): AsyncGenerator<DatedStep> {
    let batch: Pair[] = [];
    let last: BookRead | null = null;
    for await (const kept of steps) {
      if (unpackGap(kept, String) !== null) continue;
      // Steps of a machine come in order, so that one mostly begins where the one before it ended.
      const from: BookRead =
        last !== null && isSame(last, kept.from) ? last : await this.#read(kept.from, kept.machine);
      last = await this.#read(kept.to, kept.machine);
      batch.push({ kept, from, to: last });
      if (batch.length * 2 < this.#readsAtOnce) continue;
      yield* await this.#takeUp(batch);
      batch = [];
    }
    yield* await this.#takeUp(batch);
  }

  async #takeUp(pairs: readonly Pair[]): Promise<DatedStep[]> {
    const recall = new Recall(this.#store, this.#options);
    const placed = await recall.placeReads(pairs.flatMap(({ from, to }) => [from, to]));
    const fileOf = (entry: number): string => recall.labels.nameOf(entry) ?? `entry ${entry}`;
    const dated: DatedStep[] = [];
    for (const [i, { kept, from, to }] of pairs.entries()) {
      const [earlier, later] = [placed[2 * i]!, placed[2 * i + 1]!];
      const isFit = fitsStep(kept) && fits(earlier, from) && fits(later, to);
      const step = isFit
        ? unpackStep(kept, earlier.placed, later.placed, fileOf)
        : await this.#workOut(recall, from, to);
      dated.push({ step, to });
    }
    return dated;
  }

  async #workOut(recall: Recall, from: BookRead, to: BookRead): Promise<Step> {
    const [earlier, later] = await recall.takeReads([from, to]);
    return buildInterval(earlier!, later!, recall.roster);
  }

  async #read({ entry, number }: ReadKey, machine: string | null): Promise<BookRead> {
    for await (const read of this.#store.reads({ entryFrom: entry, entryTo: entry + 1, machine })) {
      if (read.number === number) return read;
    }
    throw new BookError('corrupted', `Read ${number} of entry ${entry} is missing. Verify the book.`);
  }

  /** Steps of machines whose reads the book has not worked out yet: from all reads they have. */
  async *ofMachines(machines: Iterable<string>): AsyncGenerator<DatedStep> {
    let batch: (readonly BookRead[])[] = [];
    let held = 0;
    for (const machine of machines) {
      const reads = await this.#store.readsOf(machine);
      batch.push(reads);
      held += reads.length;
      if (held < this.#readsAtOnce) continue;
      yield* await this.#workOutAll(batch);
      batch = [];
      held = 0;
    }
    yield* await this.#workOutAll(batch);
  }

  async #workOutAll(histories: readonly (readonly BookRead[])[]): Promise<DatedStep[]> {
    const recall = new Recall(this.#store, this.#options);
    const taken = await recall.takeReads(histories.flat());
    let done = 0;
    return histories.flatMap((reads) => {
      const own = taken.slice(done, done + reads.length);
      done += reads.length;
      const rowOf = new Map<PlacedRead, BookRead>(own.map((one, i) => [one, reads[i]!]));
      return listSteps(gatherHistories(own, recall.roster)).map((step) => ({ step, to: rowOf.get(step.to)! }));
    });
  }
}

const isSame = (a: ReadKey, b: ReadKey): boolean => a.entry === b.entry && a.number === b.number;

/** Whether what is kept of a read rests on what is known of it now. */
const fits = ({ seal }: KeptRead, { rests }: BookRead): boolean => rests !== null && Buffer.compare(seal, rests) === 0;
