import { hashLeaf, TreeFront } from '../../merkle/index.js';
import { BookError } from '../book-error.js';
import { canonicalJson } from '../canonical-json.js';
import type { CaptureOutcome, CaptureToRecord, DuplicateRead } from '../captures.js';
import type { Entry, EntryOutcome, EntryToRecord } from '../entries.js';
import { writeLeafText } from '../leaf-text.js';
import type { BytesToKeep } from './blob-table.js';
import type { Connection } from './connection.js';
import { ReadDigester } from './read-table.js';
import type { Tables } from './tables.js';

/** An instant in UTC, as `Date.prototype.toISOString` writes it. */
const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/;

/** Adds entries with all that belongs to them. Everything here runs inside a transaction of the caller's. */
export class Recorder {
  readonly #name: string;
  readonly #tables: Tables;
  readonly #nested: (work: () => CaptureOutcome) => CaptureOutcome;
  /** The tree's edge as this process last saw it; of no use once another has added to the book. */
  #front = TreeFront.EMPTY;

  /** @param name - what the book is called in messages */
  constructor(connection: Connection, name: string, tables: Tables) {
    this.#name = name;
    this.#tables = tables;
    this.#nested = connection.transaction((work: () => CaptureOutcome) => work());
  }

  /** The growing edge of the book's tree. */
  front(): TreeFront {
    const size = this.#tables.entries.size();
    if (this.#front.size !== size) this.#front = this.#tables.tree.front(size);
    return this.#front;
  }

  /** Forget what was seen: a transaction was undone. */
  reset(): void {
    this.#front = TreeFront.EMPTY;
  }

  /** Record a file, unless its bytes are in the book. */
  addCapture(capture: CaptureToRecord): CaptureOutcome {
    const outcome = this.#addNewCapture(capture);
    if (outcome.state !== 'changed' && capture.file !== null) this.#tables.seen.mark(capture.file, outcome.entry);
    return outcome;
  }

  #addNewCapture(capture: CaptureToRecord): CaptureOutcome {
    const { kind, bytes, sha256, size } = capture;
    const latest = this.findFile(sha256)?.entry ?? null;
    // A file set aside can be taken in later, when the program has learnt to read it; not the other way round.
    const isAnew = latest?.kind === 'set-aside' && kind === 'capture-taken';
    if (latest !== null && !isAnew) return { state: 'already', entry: latest.seq };
    if (bytes === null) return this.#insertUnkept(capture);
    const hasBytes = latest !== null && latest.key === null;
    if (hasBytes) return this.#insertCapture(capture, latest.seq);
    if (bytes instanceof Uint8Array) return this.#insertWithBytes(capture, { sha256, size, bytes });
    return this.#insertWithParts(capture, { sha256, size, bytes });
  }

  /** A file without its bytes has no row that could keep it from being recorded twice; its key does. */
  #insertUnkept(capture: CaptureToRecord): CaptureOutcome {
    if (capture.kind !== 'set-aside') throw new RangeError('A capture can not be taken in without its bytes.');
    return this.#insertCapture(capture, null, keyOfUnkept(capture.sha256));
  }

  /** As the parts are known only when they have been stored, what does not fit is undone on its own. */
  #insertWithParts(capture: CaptureToRecord, bytes: BytesToKeep): CaptureOutcome {
    const front = this.front();
    try {
      return this.#nested(() => this.#insertWithBytes(capture, bytes));
    } catch (error) {
      this.#front = front;
      if (error === PARTS_CHANGED) return { state: 'changed' };
      throw error;
    }
  }

  #insertWithBytes(capture: CaptureToRecord, bytes: BytesToKeep): CaptureOutcome {
    if (!this.#tables.blobs.insert(this.front().size, bytes)) throw PARTS_CHANGED;
    return this.#insertCapture(capture, null);
  }

  #insertCapture(capture: CaptureToRecord, refersTo: number | null, key: string | null = null): CaptureOutcome {
    const { kind, recordedAt, name, day = null, sha256, size, bytes, facts } = capture;
    const seq = this.front().size;
    const digest = new ReadDigester();
    const duplicates: DuplicateRead[] = [];
    for (const read of capture.reads) {
      digest.add(read);
      const of = this.#tables.reads.insert(seq, read);
      if (of !== null) duplicates.push({ number: read.number, of });
      if (read.machine !== null) this.#tables.machines.mark(read.machine, read.at);
    }
    const { count, sha256: readsSha256 } = digest.end();
    const body = { facts, file: name, isKept: bytes !== null, reads: count, readsSha256, sha256, size };
    this.addEntry({ kind, recordedAt, day, body, refersTo, key });
    return { state: 'recorded', entry: seq, duplicates };
  }

  /** Add an entry to the table and its leaf to the tree, unless there is one with its key. */
  addEntry(entry: Omit<EntryToRecord, 'kind'> & Pick<Entry, 'kind'>): EntryOutcome {
    const { kind, recordedAt, subject = null, day = null, key = null, refersTo = null } = entry;
    if (!INSTANT.test(recordedAt)) throw new RangeError(`An entry can not be recorded at ${recordedAt}.`);
    const existing = key === null ? null : this.#tables.entries.findKey(key);
    if (existing !== null) return { state: 'already', seq: existing };
    const edge = this.front();
    const seq = edge.size;
    if (refersTo !== null && !(refersTo >= 0 && refersTo < seq)) throw new RangeError(`There is no entry ${refersTo}.`);
    const row: Entry = { seq, kind, recordedAt, subject, day, key, refersTo, body: canonicalJson(entry.body) };
    const { front, nodes } = edge.append(hashLeaf(writeLeafText(row)));
    this.#tables.entries.insert(row);
    this.#tables.tree.insert(nodes);
    this.#front = front;
    return { state: 'recorded', seq };
  }

  /**
   * The latest entry about a file with these bytes, and whether they are kept; null when there is none.
   *
   * @throws BookError `corrupted` when there are the bytes, but no entry
   */
  findFile(sha256: string): { readonly entry: Entry; readonly isKept: boolean } | null {
    const { blobs, entries } = this.#tables;
    const blob = blobs.find(Buffer.from(sha256, 'hex'));
    const seq = blob?.entry ?? entries.findKey(keyOfUnkept(sha256));
    if (seq === null) return null;
    const first = entries.get(seq);
    if (first === null) {
      throw new BookError('corrupted', `${this.#name} is damaged: entry ${seq} is missing. Verify the book.`);
    }
    const later = first.kind === 'set-aside' ? entries.page({ refersTo: seq, kinds: ['capture-taken'] }, seq) : [];
    return { entry: later.at(-1) ?? first, isKept: blob !== null };
  }
}

const keyOfUnkept = (sha256: string): string => `not kept ${sha256}`;

const PARTS_CHANGED = new Error('The parts were not what they should be.');
