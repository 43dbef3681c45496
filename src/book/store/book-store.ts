import type { NodeAddress, NodeSource, TreeNode } from '../merkle/index.js';
import type { CaptureOutcome, CaptureToRecord, FileFacts, KeptCapture } from './captures.js';
import type { BookHead, EntriesOutcome, Entry, EntryQuery, EntryToRecord } from './entries.js';
import type { BookRead, LastReadQuery, ReadQuery, ReadWindow, WorkedOutRead } from './reads.js';
import type { BookMachine, BookStep, StaleMachine, StepQuery, WorkedOut } from './steps.js';

/** How the guards that keep what is recorded from being changed differ from those that the program makes. All empty: they do not. */
export interface GuardState {
  /** Names of those that are no longer there. */
  readonly missingGuards: readonly string[];
  /** Names of those that are there and say something else; a table's or an index's rules, too. */
  readonly alteredGuards: readonly string[];
  /** Names of what was added to the database: hostile text. */
  readonly unknownGuards: readonly string[];
}

/**
 * A book: entries that are only ever added, the files and reads they rest on, and what was worked out from them.
 *
 * Each method is one transaction: what it does is done whole and for good when its promise resolves, and not at all when
 * it rejects. Every method can reject with a `BookError`. Streams look up a part at a time and may see what is added
 * meanwhile. Hashes are lower-case hex, except for nodes of the tree.
 */
export interface BookStore extends Recording, Evidence, Reads, WorkedOutFigures, SeenFiles {
  readonly isReadOnly: boolean;
  /** Let go of the book. Nothing else may be called after it. */
  close(): Promise<void>;
}

/** Adding to the book. */
export interface Recording {
  /**
   * Keep files for good, in order; each is recorded whole or not at all. Many at a time are quicker than one by one, since
   * the disk has to confirm each call. Bytes that the book has are not taken a second time, whoever is at work beside.
   *
   * A read that equals an earlier one of its machine is marked as its duplicate; machines of the reads become stale.
   */
  recordCaptures(captures: readonly CaptureToRecord[]): Promise<readonly CaptureOutcome[]>;

  /**
   * Add entries, all or none, in order.
   *
   * @param ifSize - the size of the book that they rest on: when it has grown since, nothing is added
   * @param reassigned - reads that are another machine's, time's or visit's by what the entries say: changed with them, as
   *   {@link WorkedOutFigures.reassignReads} does
   */
  recordEntries(
    entries: readonly EntryToRecord[],
    ifSize?: number,
    reassigned?: readonly WorkedOutRead[],
  ): Promise<EntriesOutcome>;
}

/** Looking at what is recorded, and holding it against its hashes. */
export interface Evidence extends NodeSource {
  head(): Promise<BookHead>;
  entry(seq: number): Promise<Entry | null>;
  entries(query?: EntryQuery): AsyncIterable<Entry>;
  /** The file with these bytes; null when the book has none. */
  findCapture(sha256: string): Promise<KeptCapture | null>;
  /** A file's bytes as they came; null when the book does not have them. */
  bytesOf(sha256: string): Promise<Uint8Array | null>;
  /** The same in parts, for files that memory should not hold; from a part on, counted from 0. */
  partsOf(sha256: string, from?: number): AsyncIterable<Uint8Array>;
  /** What is stored besides the entry itself: to be held against it. */
  piecesOf(seq: number): Promise<EntryPieces>;
  /** How much of everything there is. */
  tally(): Promise<BookTally>;
  /** Whether the store's own guards against changing what is recorded are as they were made. */
  guards(): Promise<GuardState>;
  treeNodes(addresses: readonly NodeAddress[]): ReturnType<NodeSource['treeNodes']>;
}

/** What is stored for an entry beside it. */
export interface EntryPieces {
  /** The nodes that became complete with it, its leaf first. */
  readonly nodes: readonly TreeNode[];
  /** The file that came with it. */
  readonly blob: { readonly sha256: string; readonly size: number } | null;
  /** Its reads: how many, and the digest over what is recorded of them. */
  readonly reads: { readonly count: number; readonly sha256: string };
}

/** Rows of what is recorded. */
export interface BookTally {
  readonly entries: number;
  readonly nodes: number;
  readonly blobs: number;
  readonly reads: number;
}

/** Looking at reads. */
export interface Reads {
  /** A machine's reads by time, those without one first; a part of its history or all of it. */
  readsOf(machine: string, window?: ReadWindow): Promise<readonly BookRead[]>;
  reads(query?: ReadQuery): AsyncIterable<BookRead>;
  /** The latest read of each machine, duplicates and reads without a time aside. By machine. */
  lastReads(query?: LastReadQuery): Promise<readonly BookRead[]>;
}

/** What is worked out from reads, and can be worked out again: the only part of the book that changes. */
export interface WorkedOutFigures {
  staleMachines(): Promise<readonly StaleMachine[]>;
  /**
   * Replace what was worked out for machines, all or none. Where tables of a day were written (a note of {@link TABLES_NOTE})
   * and steps told there come, go or change, the day's count of changes goes up (a note of {@link CHANGED_NOTE}).
   */
  workOut(work: readonly WorkedOut[]): Promise<void>;
  /** Change what is known of reads, their machine included. Their steps go, counted as by {@link workOut}, and all machines concerned become stale. */
  reassignReads(reads: readonly WorkedOutRead[]): Promise<void>;
  /** Drop all steps; every machine becomes stale. */
  forgetSteps(): Promise<void>;
  /** Machines of which something else is known than what their steps rest on: they become stale, from their first read on. */
  markStale(machines: readonly string[]): Promise<void>;
  /** A machine's steps, by the time of the later read. */
  stepsOf(machine: string, query?: Omit<StepQuery, 'machine'>): Promise<readonly BookStep[]>;
  steps(query?: StepQuery): AsyncIterable<BookStep>;
  machines(): Promise<readonly BookMachine[]>;
  /** Keep what is said of machines now; they become known if they were not. */
  rememberMachines(machines: readonly BookMachine[]): Promise<void>;
  /** What is remembered under names that begin so, such as the plan as it was last given. Lost without harm. */
  notes(prefix?: string): Promise<ReadonlyMap<string, string>>;
  /** Keep notes in place of those of the same names; null takes one away. */
  writeNotes(notes: ReadonlyMap<string, string | null>): Promise<void>;
}

/** Which files were looked at before, so that they need not be read again. Lost without harm. */
export interface SeenFiles {
  /** For each file the entry it was recorded under, or null when it is new or not as it was. */
  seenFiles(files: readonly FileFacts[]): Promise<readonly (number | null)[]>;
  /** Note that a file is what an entry records: a copy, or one touched without a change. */
  markSeen(files: readonly { readonly file: FileFacts; readonly entry: number }[]): Promise<void>;
}
