import type { Finding } from '../../findings/index.js';

/** What came of taking in files. Every file is in one of the first six counts. */
export interface Intake {
  /** Everything that was looked at; one for a folder that could not be. */
  readonly files: number;
  /** Files with reads that are in the book now and were not before. */
  readonly taken: number;
  /** Files without a read that were kept, with the reason. */
  readonly setAside: number;
  /** Files whose bytes the book had, under this name or another. */
  readonly already: number;
  /** Files that were being written; nothing of them was recorded. */
  readonly leftForNextTime: number;
  /** What could not be read at all. */
  readonly unread: number;
  /** Reads in the files that were taken, and those among them that the book had from another file, or twice in one. */
  readonly reads: number;
  readonly duplicates: number;
  /** About what was not taken in; of very many the first ones. */
  readonly findings: readonly Finding[];
}

/** How much is held at a time. Whole numbers above 0. */
export interface IntakeLimits {
  /** Files looked up, and recorded in one transaction. */
  readonly filesAtOnce: number;
  /** Bytes and reads that are held before they are recorded. */
  readonly bytesAtOnce: number;
  readonly readsAtOnce: number;
  /** Longer files, and longer content of packed ones, are not taken in whole, but read piece by piece while they are recorded. */
  readonly longestWhole: number;
  /** Longer packed files are not unpacked; no more than that is unpacked of any, or taken from a pipe. */
  readonly largestUnpacked: number;
  /** A longer file is set aside unread, since every later look at one of its reads would go through all of it. */
  readonly largestCapture: number;
  /** Of a longer file that is set aside the bytes are not kept, only its size and hash. */
  readonly largestSetAside: number;
}
