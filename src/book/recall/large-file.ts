import { type Read, type ReadStart, startOfRead, streamReads } from '../../read/index.js';
import type { BookStore } from '../store/index.js';

/** Reads are found again from marks so far apart, in bytes: so much has to be gone through again for one, and no more. */
const MARK_EVERY = 64 * 1024;
/** Bytes given to the parser at a time: it takes in all of them before it gives out a read. */
const CHUNK = 16 * 1024;

/** Where reads begin, as far as a file was gone through: what is asked for next is looked for from there. */
class Marks {
  readonly #starts: ReadStart[] = [{ offset: 0, line: 1, number: 0 }];
  /** Where each part of the file begins. */
  readonly partStarts: number[] = [0];

  note(read: Read, every: number): void {
    const start = startOfRead(read);
    if (start !== null && start.offset >= this.#starts.at(-1)!.offset + every) this.#starts.push(start);
  }

  /** The last mark at or before a read. */
  before(number: number): ReadStart {
    let [low, high] = [0, this.#starts.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (this.#starts[middle]!.number <= number) low = middle;
      else high = middle - 1;
    }
    return this.#starts[low]!;
  }
}

const marksOfStore = new WeakMap<object, Map<string, Marks>>();

function marksOf(store: object, sha256: string): Marks {
  const files = marksOfStore.get(store) ?? new Map<string, Marks>();
  marksOfStore.set(store, files);
  const marks = files.get(sha256) ?? new Marks();
  files.set(sha256, marks);
  return marks;
}

/**
 * A file of very many reads that memory should not hold. A read is gone to by the nearest place at which one is known to begin,
 * so that thousands of reads joined in one file cost about what they cost in files of their own.
 */
export class LargeFile {
  readonly #store: BookStore;
  readonly #sha256: string;
  readonly #marks: Marks;
  readonly #markEvery: number;
  #last: { readonly part: number; readonly bytes: Uint8Array } | null = null;

  /** @param markEvery - see {@link MARK_EVERY} */
  constructor(store: BookStore, sha256: string, markEvery: number = MARK_EVERY) {
    this.#store = store;
    this.#markEvery = markEvery;
    this.#sha256 = sha256;
    this.#marks = marksOf(store, sha256);
  }

  /** Some reads, by their numbers; those that it does not have are left out. */
  async pick(numbers: ReadonlySet<number>): Promise<Map<number, Read>> {
    const picked = new Map<number, Read>();
    let stream: ReturnType<typeof streamReads> | null = null;
    let at = -1;
    for (const number of [...numbers].sort((a, b) => a - b)) {
      const start = this.#marks.before(number);
      if (stream === null || start.number > at + 1) {
        stream = streamReads(this.#bytesFrom(start.offset), { startAt: start });
        at = start.number - 1;
      }
      while (at < number) {
        const next = await stream.next();
        if (next.done) return picked;
        at = next.value.number;
        this.#marks.note(next.value, this.#markEvery);
        if (numbers.has(at)) picked.set(at, next.value);
      }
    }
    return picked;
  }

  async *#bytesFrom(offset: number): AsyncGenerator<Uint8Array> {
    const { partStarts } = this.#marks;
    let part = partStarts.findLastIndex((start) => start <= offset);
    for await (const bytes of this.#partsFrom(part)) {
      const start = partStarts[part]!;
      part++;
      partStarts[part] ??= start + bytes.length;
      for (let from = Math.max(0, offset - start); from < bytes.length; from += CHUNK)
        yield bytes.subarray(from, from + CHUNK);
    }
  }

  /** The parts from one on. The last one is kept: what is asked for next often lies in it, too. */
  async *#partsFrom(first: number): AsyncGenerator<Uint8Array> {
    let part = first;
    if (this.#last?.part === part) {
      yield this.#last.bytes;
      part++;
    }
    for await (const bytes of this.#store.partsOf(this.#sha256, part)) {
      this.#last = { part, bytes };
      yield bytes;
      part++;
    }
  }
}
