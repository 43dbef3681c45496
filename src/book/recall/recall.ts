import { type TakeOptions, takeRead } from '../../captures/index.js';
import { type CaptureCheck, CaptureChecker } from '../../checks/index.js';
import type { TakenRead } from '../../interval/index.js';
import { rosterNameIn } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import { BookError, type BookRead, type BookStore, type Entry } from '../store/index.js';
import { isEarlier, readEarlierCopy } from './earlier-copy.js';
import { FileLabels } from './file-labels.js';
import { type KnownFile, readFileEntry } from './known-file.js';
import { ParsedFiles } from './parsed-files.js';

/** What is known besides the book. */
export interface RecallOptions {
  /** The roster of today, and what the user says of all captures. */
  readonly take: TakeOptions;
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
  /** A doubt counts as a fault. */
  readonly strict?: boolean;
}

/**
 * Takes reads and files out of the book as if they had just come: read again from their bytes, checked again by the roster of
 * today. What was known of a read when it came (when it was received, why, its bag) is kept where today's captures list does
 * not tell of it. Use one for the machines that are looked at together: it remembers how it named their files.
 *
 * @example
 * const recall = new Recall(book, { take: { roster } });
 * const taken = await recall.takeReads(await book.readsOf('machine V101'));
 */
export class Recall {
  readonly labels: FileLabels;
  readonly #store: BookStore;
  readonly #options: RecallOptions;
  readonly #parsed: ParsedFiles;
  readonly #files = new Map<number, KnownFile>();

  constructor(store: BookStore, options: RecallOptions) {
    this.#store = store;
    this.#options = options;
    this.#parsed = new ParsedFiles(store);
    this.labels = new FileLabels(options.take.roster);
  }

  /**
   * Reads of the book as the accounts take them, in the order given.
   *
   * @throws BookError (as a rejection) `corrupted` when a read is not in its file any more
   */
  async takeReads(reads: readonly BookRead[]): Promise<TakenRead[]> {
    const numbers = new Map<number, Set<number>>();
    for (const { entry, number } of reads) {
      const own = numbers.get(entry);
      if (own === undefined) numbers.set(entry, new Set([number]));
      else own.add(number);
    }
    const parsed = new Map<number, Map<number, Read>>();
    for (const [entry, own] of numbers) parsed.set(entry, await this.#parsed.pick(await this.file(entry), own));
    // The latest keep their plain names: what a list says now is said of them.
    for (const entry of [...numbers.keys()].sort((a, b) => b - a)) this.labels.labelOf(this.#files.get(entry)!);
    return reads.map((read) => {
      const found = parsed.get(read.entry)?.get(read.number);
      if (found === undefined) throw new BookError('corrupted', missingRead(read));
      return this.#take(found, read, this.#files.get(read.entry)!);
    });
  }

  /** A file of the book, checked as if it had just come. */
  async checkFile(entry: Entry): Promise<CaptureCheck> {
    const file = this.#keep(readFileEntry(entry));
    const label = this.labels.labelOf(file);
    const { lastGood: _, check: __, defaults, ...take } = this.#options.take;
    const { strict = false } = this.#options;
    const checker = new CaptureChecker(label, { ...take, ...defaults, ...this.#received(file), strict });
    const reads = this.#parsed.readsOf(file);
    let next = await reads.next();
    for (; !next.done; next = await reads.next()) checker.addRead(next.value);
    return checker.end({ findings: next.value.findings.map((finding) => ({ file: label, ...finding })) });
  }

  /** What the book says of a file. */
  async file(entry: number): Promise<KnownFile> {
    const known = this.#files.get(entry);
    if (known !== undefined) return known;
    const found = await this.#store.entry(entry);
    if (found === null) throw new BookError('corrupted', `Entry ${entry} is missing. Verify the book.`);
    return this.#keep(readFileEntry(found));
  }

  #keep(file: KnownFile): KnownFile {
    this.#files.set(file.entry, file);
    return file;
  }

  #take(read: Read, known: BookRead, file: KnownFile): TakenRead {
    const label = this.labels.labelOf(file);
    const options = { ...this.#options.take, ...this.#received(file) };
    const earlier = readEarlierCopy(known);
    if (this.labels.isListed(file)) {
      const listed = takeRead(label, read, options);
      if (earlier === null || !isEarlier(earlier.receivedAt, listed.receivedAt)) return listed;
      const { receivedAt, ...said } = earlier;
      return { ...takeRead(label, read, { ...options, receivedAt }), ...said };
    }
    const { receivedAt, reason, bag } = known;
    const said = { receivedAt: receivedAt ?? options.receivedAt ?? null };
    const taken = takeRead(label, read, { ...options, ...said });
    const filled = filledOf(known);
    const machine = known.machine === null ? null : rosterNameIn(known.machine);
    // What only a list of its day told of the machine.
    const isToldByList = taken.machine === null && machine !== null;
    const told = isToldByList ? takeRead(label, read, { ...options, ...said, saidMachine: machine }) : taken;
    return { ...told, reason, bag, filled };
  }

  #received({ fileTime }: KnownFile) {
    return this.#options.isFileTimeReceived === true ? { fileTime } : {};
  }
}

const missingRead = ({ entry, number }: BookRead): string =>
  `Read ${number} of entry ${entry} is not in its file. Verify the book.`;

function filledOf({ facts }: BookRead): boolean | null {
  const filled = (facts as { readonly filled?: unknown } | null)?.filled;
  return typeof filled === 'boolean' ? filled : null;
}
