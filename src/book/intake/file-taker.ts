import { setTimeout as delay } from 'node:timers/promises';
import type { Finding } from '../../findings/index.js';
import { hasForeignBytes } from '../../io/byte-name.js';
import { sayNotRead, sayUnreadable } from '../../io/file-problem.js';
import { isPacked } from '../../io/unpack.js';
import type { FoundFile } from '../../io/walk-files.js';
import { pathOf, STANDARD_INPUT, type Workplace } from '../../io/workplace.js';
import type { BookStore, FileFacts } from '../store/index.js';
import type { CaptureQueue } from './capture-queue.js';
import { fileTimeOf, isSettled, isUnchanged, lookAtFile } from './file-facts.js';
import type { IntakeLimits } from './intake.js';
import type { IntakeTally } from './intake-tally.js';
import type { CaptureMaker, FileOrigin } from './make-capture.js';
import { FileChanged, readAgain } from './read-again.js';
import { readAtOnce, readHead } from './read-bytes.js';
import { readPipe } from './read-pipe.js';
import { surveyFile } from './survey.js';

/** What taking files needs. */
export interface FileTakerOptions {
  readonly store: BookStore;
  readonly tally: IntakeTally;
  readonly queue: CaptureQueue;
  readonly maker: CaptureMaker;
  readonly limits: IntakeLimits;
  readonly workplace: Workplace;
  readonly onFile: ((file: string) => void) | undefined;
  readonly now: () => number;
}

/** How often a file is read that changes meanwhile, and how long its writer is given in between. */
const ATTEMPTS = 3;
const PAUSE_MS = 40;

const UNSTEADY = 'it changed while it was read; the next run takes it in';

/** A file that was found, looked at: its facts, null for a pipe; or why there are none. */
type Looked = { readonly file: string } & (
  | { readonly facts: FileFacts | null; readonly problem: null }
  | { readonly facts: null; readonly problem: Finding }
);

/** Brings files to the queue, each as it is at one moment. */
export class FileTaker {
  readonly #options: FileTakerOptions;

  constructor(options: FileTakerOptions) {
    this.#options = options;
  }

  /** Take files in order; those that are as they were at an earlier run are not read. */
  async takeFiles(found: readonly FoundFile[]): Promise<void> {
    const { store, tally, onFile } = this.#options;
    const looked = found.map((each) => this.#look(each));
    const known = looked
      .map(({ facts }) => facts)
      .filter((facts) => facts !== null && canBeKnownAgain(facts)) as FileFacts[];
    const seen = new Set<FileFacts>();
    for (const [index, entry] of (await store.seenFiles(known)).entries()) {
      if (entry !== null) seen.add(known[index]!);
    }
    for (const { file, facts, problem } of looked) {
      onFile?.(file);
      if (problem !== null) tally.addUnread(problem);
      else if (facts === null) await this.#takePipe(file);
      else if (seen.has(facts)) tally.addAlready();
      else await this.#takeFile(file, facts);
    }
  }

  #look({ file, problem }: FoundFile): Looked {
    if (problem !== null) return { file, facts: null, problem };
    if (file === STANDARD_INPUT) return { file, facts: null, problem: null };
    try {
      return { file, facts: lookAtFile(pathOf(file, this.#options.workplace)), problem: null };
    } catch (error) {
      return { file, facts: null, problem: sayUnreadable(file, error) };
    }
  }

  async #takePipe(file: string): Promise<void> {
    const { workplace, limits, maker, queue, tally } = this.#options;
    const { content, problem } = await readPipe(file, workplace, limits.largestUnpacked);
    if (problem !== null) tally.addUnread(problem);
    else await queue.add(maker.ofBytes({ name: file, fileTime: null, file: null }, content));
  }

  /** Read a file until it stays as it is from before to after, or has had its chances. */
  async #takeFile(file: string, facts: FileFacts): Promise<void> {
    const { tally } = this.#options;
    let before: FileFacts = facts;
    for (let attempt = 1; ; attempt++) {
      try {
        const after = await this.#attempt(file, before);
        if (after === null) return;
        before = after;
      } catch (error) {
        if (!(error instanceof FileFailed)) throw error;
        tally.addUnread(sayUnreadable(file, error.cause));
        return;
      }
      if (attempt === ATTEMPTS) break;
      await delay(PAUSE_MS);
    }
    tally.addLeft(sayNotRead(file, UNSTEADY));
  }

  /** @returns null when the file is dealt with; what is said of it now when it changed */
  async #attempt(file: string, before: FileFacts): Promise<FileFacts | null> {
    const { longestWhole, largestUnpacked } = this.#options.limits;
    const { path, size } = before;
    const isWhole = size <= longestWhole || (size <= largestUnpacked && isPacked(readFile(() => readHead(path, 2))));
    return isWhole ? this.#takeAtOnce(file, before) : this.#takeInPieces(file, before);
  }

  async #takeAtOnce(file: string, before: FileFacts): Promise<FileFacts | null> {
    const { maker, queue } = this.#options;
    const { bytes, facts } = readFile(() => readAtOnce(before.path, before.size));
    if (bytes.length !== before.size || !isUnchanged(before, facts)) return facts;
    await queue.add(maker.ofBytes(this.#originOf(file, facts), bytes));
    return null;
  }

  async #takeInPieces(file: string, before: FileFacts): Promise<FileFacts | null> {
    const { store, tally, queue, maker, limits } = this.#options;
    const survey = readFile(() => surveyFile(before.path, limits.largestCapture));
    if (survey.size !== before.size || !isUnchanged(before, survey.facts)) return survey.facts;
    const origin = this.#originOf(file, before);
    const known = await store.findCapture(survey.sha256);
    if (known !== null && (known.kind === 'capture-taken' || survey.findings !== null)) {
      if (origin.file !== null) await store.markSeen([{ file: origin.file, entry: known.entry }]);
      tally.addAlready();
      return null;
    }
    const made = maker.ofSurvey(origin, survey, () => readAgain(before.path, survey.sha256));
    try {
      if (await queue.recordApart(made)) return null;
    } catch (error) {
      if (!(error instanceof FileChanged)) throw error;
    }
    return readFile(() => lookAtFile(before.path)) ?? before;
  }

  #originOf(name: string, facts: FileFacts): FileOrigin {
    const isKnownAgain = isSettled(facts, this.#options.now()) && canBeKnownAgain(facts);
    return { name, fileTime: fileTimeOf(facts), file: isKnownAgain ? facts : null };
  }
}

/** A database keeps text, in which names that are no text would become alike. */
const canBeKnownAgain = ({ path }: FileFacts): boolean => !hasForeignBytes(path);

/** The system refused a file; to be told from what goes wrong with the book. */
class FileFailed extends Error {}

function readFile<T>(read: () => T): T {
  try {
    return read();
  } catch (cause) {
    throw new FileFailed('The file could not be read.', { cause });
  }
}
