import type { TakeOptions } from '../../captures/index.js';
import { type FoundFile, walkFiles } from '../../io/walk-files.js';
import { currentWorkplace, type Workplace } from '../../io/workplace.js';
import type { LocalDate } from '../../model/index.js';
import { FilesAtHand } from '../recall/index.js';
import type { BookStore } from '../store/index.js';
import { CaptureQueue } from './capture-queue.js';
import { FileTaker } from './file-taker.js';
import type { Intake, IntakeLimits } from './intake.js';
import { IntakeTally } from './intake-tally.js';
import { CaptureMaker } from './make-capture.js';
import { ReadMaker } from './make-read.js';

/** Options of {@link takeIn}. */
export interface TakeInOptions {
  /** The day of this run: the entries it adds are found by it. */
  readonly day: LocalDate;
  /** The present instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: () => string;
  /** The roster, and how strictly captures are judged. */
  readonly take: TakeOptions;
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
  /** The entry that says what is told of these files (`told`), so that what their reads are matched by can be shown to follow
   * from entries; null where nothing is told. Default: no entry says it. */
  readonly toldBy?: number | null;
  /**
   * Real paths of files that are no captures and folders that hold none: the office's sheets, the book itself with what lies
   * beside it, where the output goes. Passed over where a folder holds them.
   */
  readonly skip?: ReadonlySet<string>;
  /** Told of every file before it is read. */
  readonly onFile?: (file: string) => void;
  readonly workplace?: Workplace;
  readonly limits?: Partial<IntakeLimits>;
  /** The present moment in milliseconds, to tell files that were written just now. Default `Date.now`. */
  readonly now?: () => number;
}

/** How much is held at a time where nothing else is said. */
export const INTAKE_LIMITS: IntakeLimits = {
  filesAtOnce: 200,
  bytesAtOnce: 32 * 1024 * 1024,
  readsAtOnce: 5000,
  longestWhole: 1024 * 1024,
  largestUnpacked: 64 * 1024 * 1024,
  largestCapture: 1024 * 1024 * 1024,
  largestSetAside: 64 * 1024 * 1024,
};

/**
 * Take files, and all files in folders, into the book: each with its bytes as they came and the reads in it, recorded whole
 * or not at all. What is in the book already is known by its bytes; a file that is as it was at an earlier run is not read
 * again. What can not be read, or changes while it is read, is said in the findings, and everything else is taken in.
 *
 * Stopped at any moment and run again, the book is the same as if it had never been stopped. Two runs at once do no harm.
 *
 * @throws BookError (as a rejection) when the book can not be written; what was recorded before stays
 * @example
 * const { taken, findings } = await takeIn(book, ['captures'], { day, recordedAt: () => new Date().toISOString(), take: { roster } });
 */
export async function takeIn(store: BookStore, names: readonly string[], options: TakeInOptions): Promise<Intake> {
  const { workplace = currentWorkplace(), skip, onFile } = options;
  const limits = { ...INTAKE_LIMITS, ...options.limits };
  const tally = new IntakeTally();
  const { day, recordedAt, take, isFileTimeReceived = false, toldBy, now = Date.now } = options;
  const telling = toldBy === undefined ? null : { day, recordedAt };
  const queue = new CaptureQueue(store, tally, limits, telling);
  const atHand = FilesAtHand.of(store);
  const told = toldBy === undefined ? {} : { toldBy };
  const reads = new ReadMaker(take);
  const maker = new CaptureMaker({ day, recordedAt, reads, isFileTimeReceived, limits, atHand, ...told });
  const taker = new FileTaker({ store, tally, queue, maker, limits, workplace, onFile, now });
  let found: FoundFile[] = [];
  for await (const each of walkFiles(names, workplace, skip)) {
    found.push(each);
    if (found.length < limits.filesAtOnce) continue;
    await taker.takeFiles(found);
    found = [];
  }
  await taker.takeFiles(found);
  await queue.flush();
  return tally.intake();
}
