import type { TakeOptions } from '../../captures/index.js';
import { type CaptureCheck, CaptureChecker, type ToldOfFile } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import type { TakenRead } from '../../interval/index.js';
import { rosterNameIn } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import type { Roster } from '../../sheets/index.js';
import { type KeptRead, type KnownRead, knowRead, nameEntry, takeUpRead, unpackFacts } from '../kept/index.js';
import { BookError, type BookRead, type BookStore, type JsonObject } from '../store/index.js';
import { deriveMatching, isEarlier, putRight, ToldHistory } from '../told/index.js';
import { readEarlierCopy } from './earlier-copy.js';
import { FileLabels } from './file-labels.js';
import { FilesAtHand } from './files-at-hand.js';
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
 * Takes reads and files out of the book as if they had just come, by the roster of today. What was kept of a read is taken up
 * where it still fits what it rests on; else the read is taken from its bytes and checked again. What was told of a read when
 * it came (when it was received, why, its bag) holds where today's captures list does not tell of it. Use one for the machines
 * that are looked at together: it remembers how it named their files.
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
  readonly #placed = new WeakMap<BookRead, KeptRead>();

  readonly #isAnew: boolean;
  #told: Promise<ToldHistory> | null = null;

  /**
   * @param parsed - files that were read already, to be shared among several of these
   * @param how - `isAnew`: what was kept of a read is not taken up, whether it fits or not
   */
  constructor(
    store: BookStore,
    options: RecallOptions,
    parsed: ParsedFiles = new ParsedFiles(store, FilesAtHand.of(store)),
    how: { readonly isAnew?: boolean } = {},
  ) {
    this.#isAnew = how.isAnew ?? false;
    this.#store = store;
    this.#options = options;
    this.#parsed = parsed;
    this.labels = new FileLabels(options.take.roster);
  }

  /** The roster of today. */
  get roster(): Roster {
    return this.#options.take.roster;
  }

  /**
   * Reads of the book with their contents, as the accounts take them, in the order given.
   *
   * @throws BookError (as a rejection) `corrupted` when a read is not in its file any more
   */
  async takeReads(rows: readonly BookRead[]): Promise<TakenRead[]> {
    return (await this.#knowAll(rows, {})).map(({ taken }) => taken);
  }

  /**
   * The same, each as one of the machine that the book keeps it under and named by its entry ({@link nameEntry}), with what is
   * to be kept of it.
   */
  async knowReads(rows: readonly BookRead[]): Promise<KnownRead[]> {
    return this.#knowAll(rows, { isNamedByEntry: true });
  }

  async #knowAll(rows: readonly BookRead[], how: { readonly isNamedByEntry?: boolean }): Promise<KnownRead[]> {
    const reads = await this.#readAll(rows);
    const known: KnownRead[] = [];
    for (const [i, row] of rows.entries()) {
      const read = reads[i]!;
      known.push(this.#takeUp(read, row, how) ?? this.#know(read, await this.#putRight(row, read), how, null));
    }
    return known;
  }

  /**
   * A read whose seal does not fit, by what entries say of it: what it is matched by may have been changed by hand.
   *
   * @throws BookError (as a rejection) `altered`; see `putRight`
   */
  async #putRight(row: BookRead, { appendedAt }: Read): Promise<BookRead> {
    this.#told ??= ToldHistory.load(this.#store);
    const told = deriveMatching(await this.#told, this.#files.get(row.entry)!, row, appendedAt);
    if (told === null) return row;
    // What is verified may be anywhere; it is named.
    return this.#isAnew ? { ...row, ...told, machine: row.machine, at: row.at } : putRight(row, told);
  }

  /** Reads of the book without their contents; those of which nothing fits that is kept are taken from their bytes. */
  async placeReads(rows: readonly BookRead[]): Promise<KeptRead[]> {
    await this.#nameFiles(rows);
    const unfit: BookRead[] = [];
    for (const row of rows) {
      if (this.#placed.has(row)) continue;
      const file = this.#files.get(row.entry)!;
      const kept = takeUpRead(this.labels.labelOf(file), row, this.#circumstances(row, file));
      if (kept === null) unfit.push(row);
      else this.#placed.set(row, kept);
    }
    const reads = unfit.length === 0 ? [] : await this.#readAll(unfit);
    for (const [i, row] of unfit.entries()) {
      this.#placed.set(row, this.#placeAnew(reads[i]!, await this.#putRight(row, reads[i]!)));
    }
    return rows.map((row) => this.#placed.get(row)!);
  }

  #placeAnew(read: Read, row: BookRead): KeptRead {
    const { taken, recorded, known } = this.#know(read, row, {}, null);
    const file = this.#files.get(row.entry)!;
    const label = this.labels.labelOf(file);
    const kept = takeUpRead(label, { ...row, ...recorded, ...known }, this.#circumstances(row, file));
    if (kept === null) throw new RangeError('what was just kept fits');
    return { ...kept, placed: taken };
  }

  /**
   * A file of the book, with what checks find of it.
   *
   * @param atHand - its reads as far as they were looked up already
   */
  async checkFile(entry: number, atHand: readonly BookRead[] = []): Promise<CaptureCheck> {
    const file = await this.file(entry);
    const label = this.labels.labelOf(file);
    const { strict = false } = this.#options;
    const checker = new CaptureChecker(label, { strict });
    const rows = atHand.length === file.reads ? atHand : await this.#rowsOf(entry);
    const kept = await this.placeReads(rows);
    for (const { summary, findings } of kept) checker.addChecked(summary, findings);
    const ofFile = kept[0]?.ofFile ?? (await this.#findOfFile(file));
    return checker.end({ findings: ofFile.map((finding) => ({ file: label, ...finding })) });
  }

  async #rowsOf(entry: number): Promise<readonly BookRead[]> {
    const rows: BookRead[] = [];
    for await (const row of this.#store.reads({ entryFrom: entry, entryTo: entry + 1 })) rows.push(row);
    return rows;
  }

  /** What is found on a file as a whole, from its bytes. */
  async #findOfFile(file: KnownFile): Promise<readonly Finding[]> {
    const reads = this.#parsed.readsOf(file);
    let next = await reads.next();
    while (!next.done) next = await reads.next();
    return next.value.findings;
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

  /** The latest files keep their plain names: what a list says now is said of them. */
  async #nameFiles(rows: readonly BookRead[]): Promise<void> {
    const entries = [...new Set(rows.map(({ entry }) => entry))].sort((a, b) => b - a);
    for (const entry of entries) this.labels.labelOf(await this.file(entry));
  }

  async #readAll(rows: readonly BookRead[]): Promise<Read[]> {
    await this.#nameFiles(rows);
    const numbers = new Map<number, Set<number>>();
    for (const { entry, number } of rows) {
      const own = numbers.get(entry);
      if (own === undefined) numbers.set(entry, new Set([number]));
      else own.add(number);
    }
    const parsed = new Map<number, Map<number, Read>>();
    for (const [entry, own] of numbers) parsed.set(entry, await this.#parsed.pick(this.#files.get(entry)!, own));
    return rows.map((row) => {
      const found = parsed.get(row.entry)?.get(row.number);
      if (found === undefined) throw new BookError('corrupted', missingRead(row));
      return found;
    });
  }

  /** A read of which what is kept fits; null where it does not. */
  #takeUp(read: Read, row: BookRead, how: { readonly isNamedByEntry?: boolean }): KnownRead | null {
    if (this.#isAnew) return null;
    const file = this.#files.get(row.entry)!;
    const name = how.isNamedByEntry === true ? nameEntry(row.entry) : this.labels.labelOf(file);
    const kept = takeUpRead(name, row, this.#circumstances(row, file));
    return kept === null ? null : this.#know(read, row, how, kept);
  }

  /** @param kept - what fits of what is kept; null: it is checked anew */
  #know(read: Read, row: BookRead, { isNamedByEntry = false }, kept: KeptRead | null): KnownRead {
    const file = this.#files.get(row.entry)!;
    const circumstances = this.#circumstances(row, file);
    const name = isNamedByEntry ? nameEntry(row.entry) : this.labels.labelOf(file);
    const options = kept === null ? circumstances : { ...circumstances, check: () => kept.findings };
    const { filled: _, kept: before, ...facts } = (row.facts ?? {}) as JsonObject;
    const ofFile = before === undefined ? null : (unpackFacts(row)?.ofFile ?? null);
    const given = { read, content: row.content, ofFile, facts };
    return knowRead(name, isNamedByEntry ? { ...given, machine: row.machine } : given, options);
  }

  #circumstances(row: BookRead, file: KnownFile): TakeOptions {
    const { isFileTimeReceived = false, take } = this.#options;
    const { lastGood: _, ...rest } = take;
    const fileTime = isFileTimeReceived ? { fileTime: file.fileTime } : {};
    return { ...rest, ...fileTime, told: this.#toldOf(row, file) };
  }

  /** What a captures list tells of the read's file: today's, else that of its day. */
  #toldOf(row: BookRead, file: KnownFile): ToldOfFile {
    const listed = this.labels.isListed(file) ? this.#options.take.roster.listed(this.labels.labelOf(file)) : null;
    const earlier = readEarlierCopy(row);
    if (listed !== null) {
      return earlier === null || !isEarlier(earlier.receivedAt, listed.receivedAt) ? listed : { ...listed, ...earlier };
    }
    const { receivedAt, reason, bag } = row;
    const [signal, machine] = unpackFacts(row)?.told ?? [null, row.machine === null ? null : rosterNameIn(row.machine)];
    return { receivedAt, reason, bag, signal, machine, filled: filledOf(row) };
  }
}

const missingRead = ({ entry, number }: BookRead): string =>
  `Read ${number} of entry ${entry} is not in its file. Verify the book.`;

function filledOf({ facts }: BookRead): boolean | null {
  const filled = (facts as { readonly filled?: unknown } | null)?.filled;
  return typeof filled === 'boolean' ? filled : null;
}
