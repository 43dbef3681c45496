import type { NodeAddress } from '../../merkle/index.js';
import type { BookStore, BookTally, EntryPieces, GuardState } from '../book-store.js';
import type { CaptureOutcome, CaptureToRecord, FileFacts, KeptCapture } from '../captures.js';
import type { BookHead, EntriesOutcome, Entry, EntryQuery, EntryToRecord } from '../entries.js';
import type { BookRead, LastReadQuery, ReadKey, ReadQuery, ReadWindow, WorkedOutRead } from '../reads.js';
import type { BookMachine, BookStep, StaleMachine, StepQuery, WorkedOut } from '../steps.js';
import type { BlobHead } from './blob-table.js';
import { compareSchema } from './compare-schema.js';
import type { Connection } from './connection.js';
import { isToldOtherwise, listChanged } from './day-marks.js';
import { explainError } from './explain-error.js';
import { Recorder } from './recorder.js';
import { prepareTables, type Tables } from './tables.js';

/** Rows of reads and steps looked up at a time. */
const PAGE = 200;

/** A book in an SQLite file that is open and up to date. */
export class SqliteBook implements BookStore {
  readonly isReadOnly: boolean;
  readonly #connection: Connection;
  readonly #name: string;
  readonly #onClosed: () => void;
  readonly #tables: Tables;
  readonly #recorder: Recorder;
  readonly #transaction;

  /**
   * @param name - what the book is called in messages
   * @param onClosed - called when it is closed
   */
  constructor(connection: Connection, name: string, onClosed: () => void = () => {}) {
    this.#onClosed = onClosed;
    this.isReadOnly = connection.readonly;
    this.#connection = connection;
    this.#name = name;
    this.#tables = prepareTables(connection, name);
    this.#recorder = new Recorder(connection, name, this.#tables);
    this.#transaction = connection.transaction((work: () => unknown) => work());
  }

  async recordCaptures(captures: readonly CaptureToRecord[]): Promise<readonly CaptureOutcome[]> {
    return this.#write(() => captures.map((capture) => this.#recorder.addCapture(capture)));
  }

  async recordEntries(
    entries: readonly EntryToRecord[],
    ifSize?: number,
    reassigned: readonly WorkedOutRead[] = [],
  ): Promise<EntriesOutcome> {
    return this.#write(() => {
      if (ifSize !== undefined && ifSize !== this.#tables.entries.size())
        return { state: 'moved-on', head: this.#head() };
      const outcomes = entries.map((entry) => this.#recorder.addEntry(entry));
      if (reassigned.length > 0) this.#reassign(reassigned);
      return { state: 'done', entries: outcomes, head: this.#head() };
    });
  }

  async head(): Promise<BookHead> {
    return this.#read(() => this.#head());
  }

  #head(): BookHead {
    const front = this.#recorder.front();
    return { size: front.size, root: Buffer.from(front.root()).toString('hex') };
  }

  async entry(seq: number): Promise<Entry | null> {
    return this.#look(() => this.#tables.entries.get(seq));
  }

  async *entries(query: EntryQuery = {}): AsyncGenerator<Entry> {
    for (let after = -1; ; ) {
      const page = this.#read(() => this.#tables.entries.page(query, after));
      if (page.length === 0) return;
      yield* page;
      after = page.at(-1)!.seq;
    }
  }

  async treeNodes(addresses: readonly NodeAddress[]): Promise<readonly Uint8Array[]> {
    return this.#read(() => this.#tables.tree.get(addresses));
  }

  async findCapture(sha256: string): Promise<KeptCapture | null> {
    return this.#read(() => {
      const file = this.#recorder.findFile(sha256);
      return file && { entry: file.entry.seq, kind: file.entry.kind, isKept: file.isKept };
    });
  }

  async bytesOf(sha256: string): Promise<Uint8Array | null> {
    return this.#read(() => {
      const blob = this.#findBlob(sha256);
      if (blob === null) return null;
      const parts: Uint8Array[] = [];
      for (
        let part = this.#tables.blobs.part(blob, 0);
        part !== null;
        part = this.#tables.blobs.part(blob, parts.length)
      )
        parts.push(part);
      return parts.length === 1 ? parts[0]! : Buffer.concat(parts);
    });
  }

  async *partsOf(sha256: string, from = 0): AsyncGenerator<Uint8Array> {
    const blob = this.#read(() => this.#findBlob(sha256));
    for (let number = from; blob !== null; number++) {
      const part = this.#read(() => this.#tables.blobs.part(blob, number));
      if (part === null) return;
      yield part;
    }
  }

  #findBlob(sha256: string): BlobHead | null {
    return this.#tables.blobs.find(Buffer.from(sha256, 'hex'));
  }

  async piecesOf(seq: number): Promise<EntryPieces> {
    return this.#read(() => {
      const { entries, blobs, tree, reads } = this.#tables;
      const entry = entries.get(seq);
      const isOfFile = entry?.kind === 'capture-taken' || entry?.kind === 'set-aside';
      const blob = isOfFile ? blobs.of(entry.refersTo ?? seq) : null;
      return {
        nodes: tree.endingWith(seq),
        blob: blob && { sha256: blob.sha256.toString('hex'), size: blob.size },
        reads: reads.digestOf(seq),
      };
    });
  }

  async tally(): Promise<BookTally> {
    const count = (table: string): string => `(SELECT count(*) FROM ${table})`;
    const sql = `SELECT ${count('entry')} AS entries, ${count('node')} AS nodes, ${count('blob')} AS blobs, ${count('read')} AS reads`;
    return this.#read(() => this.#connection.prepare<[], BookTally>(sql).get()!);
  }

  async guards(): Promise<GuardState> {
    return compareSchema(this.#connection).catch((error: unknown) => {
      throw explainError(error, this.#name);
    });
  }

  async readsOf(machine: string, window: ReadWindow = {}): Promise<readonly BookRead[]> {
    return this.#read(() => this.#tables.readQueries.ofMachine(machine, window));
  }

  async *reads(query: ReadQuery = {}): AsyncGenerator<BookRead> {
    const { readQueries } = this.#tables;
    for (const keys of inPages(this.#read(() => readQueries.keys(query)))) {
      yield* this.#read(() => keys.map((key) => readQueries.get(key)));
    }
  }

  async lastReads(query: LastReadQuery = {}): Promise<readonly BookRead[]> {
    return this.#read(() => this.#tables.readQueries.last(query));
  }

  async staleMachines(): Promise<readonly StaleMachine[]> {
    return this.#read(() => this.#tables.machines.stale());
  }

  async workOut(work: readonly WorkedOut[]): Promise<void> {
    const { steps, machines, reads, dayMarks } = this.#tables;
    this.#write(() => {
      for (const { machine, asOf, window, changed, steps: worked } of work) {
        const before = steps.removeWithin(window);
        const otherwise = changed.filter((read) => isToldOtherwise(reads.toldOf(read), read));
        for (const read of changed) reads.update(read);
        const now = worked.map((step) => steps.insert(step));
        const ends = otherwise.flatMap((read) => [read, ...steps.endsAfter(read)]);
        dayMarks.count([...listChanged(before, now), ...ends]);
        machines.settle(machine, asOf);
      }
    });
  }

  async reassignReads(changed: readonly WorkedOutRead[]): Promise<void> {
    this.#write(() => this.#reassign(changed));
  }

  #reassign(changed: readonly WorkedOutRead[]): void {
    const { steps, machines, reads, dayMarks } = this.#tables;
    dayMarks.count(steps.removeTouching(changed));
    for (const read of changed) {
      for (const machine of [reads.machineOf(read), read.machine]) if (machine != null) machines.mark(machine, null);
      reads.update(read);
    }
  }

  async forgetSteps(): Promise<void> {
    this.#write(() => {
      this.#tables.steps.clear();
      this.#tables.machines.markAll();
    });
  }

  async markStale(machines: readonly string[]): Promise<void> {
    this.#write(() => {
      for (const machine of machines) this.#tables.machines.mark(machine, null);
    });
  }

  async stepsOf(machine: string, query: Omit<StepQuery, 'machine'> = {}): Promise<readonly BookStep[]> {
    return this.#look(() => this.#tables.steps.ofMachine({ ...query, machine }));
  }

  async *steps(query: StepQuery = {}): AsyncGenerator<BookStep> {
    const { steps } = this.#tables;
    for (const keys of inPages(this.#read(() => steps.keys(query)))) {
      const page = this.#read(() => keys.map((key) => steps.get(key)));
      yield* page.filter((step) => step !== null);
    }
  }

  async notes(prefix = ''): Promise<ReadonlyMap<string, string>> {
    return this.#look(() => this.#tables.notes.find(prefix));
  }

  async writeNotes(notes: ReadonlyMap<string, string | null>): Promise<void> {
    this.#write(() => {
      for (const [key, value] of notes) this.#tables.notes.write(key, value);
    });
  }

  async machines(): Promise<readonly BookMachine[]> {
    return this.#read(() => this.#tables.machines.all());
  }

  async rememberMachines(machines: readonly BookMachine[]): Promise<void> {
    this.#write(() => {
      for (const machine of machines) this.#tables.machines.remember(machine);
    });
  }

  async seenFiles(files: readonly FileFacts[]): Promise<readonly (number | null)[]> {
    return this.#read(() => files.map((file) => this.#tables.seen.find(file)));
  }

  async markSeen(files: readonly { readonly file: FileFacts; readonly entry: number }[]): Promise<void> {
    this.#write(() => {
      for (const { file, entry } of files) this.#tables.seen.mark(file, entry);
    });
  }

  async close(): Promise<void> {
    this.#connection.close();
    this.#onClosed();
  }

  /** What one statement gives: it sees the book at one moment by itself. */
  #look<T>(work: () => T): T {
    try {
      return work();
    } catch (error) {
      throw explainError(error, this.#name);
    }
  }

  /** What a piece of work gives that sees the book at one moment. */
  #read<T>(work: () => T): T {
    try {
      return this.#transaction.deferred(work) as T;
    } catch (error) {
      throw explainError(error, this.#name);
    }
  }

  /** What a piece of work gives that is done whole or not at all. */
  #write<T>(work: () => T): T {
    try {
      // The lock is taken at the start: one taken later could find the book changed since it was looked at.
      return this.#transaction.immediate(work) as T;
    } catch (error) {
      this.#recorder.reset();
      throw explainError(error, this.#name);
    }
  }
}

/** Keys given as entry and number in turn, a page at a time. */
function* inPages(flat: readonly number[]): Generator<ReadKey[]> {
  for (let from = 0; from < flat.length; from += 2 * PAGE) {
    const page: ReadKey[] = [];
    for (let i = from; i < Math.min(flat.length, from + 2 * PAGE); i += 2) {
      page.push({ entry: flat[i]!, number: flat[i + 1]! });
    }
    yield page;
  }
}
