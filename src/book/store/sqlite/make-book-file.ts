import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { BookError } from '../book-error.js';
import type { SqliteLibrary } from './connection.js';
import { migrate } from './migrations.js';

/** What a book is called beside its place until all of it is there. */
export const DRAFT_END = '-new';
/** A draft that old was left by a process that was killed. It takes milliseconds to write. */
const STALE_MS = 3000;

/** What a new book shall be. */
export interface NewBook {
  /** What it is called in messages. */
  readonly name: string;
  /** Who may read and write it, as POSIX has it; SQLite gives the files beside it the same. */
  readonly mode: number;
  readonly largestBytes?: number;
}

/**
 * Put a new book where there is no file: whole, or not at all. It is written beside its place and then given its name, so
 * that an empty file is never a book that was just begun, but always one that lost what was in it. Many processes may do
 * this at once; one of them makes the book.
 *
 * @throws BookError `disk-full`, `cannot-open`, `read-only`
 */
export async function makeBookFile(library: SqliteLibrary, path: string, book: NewBook): Promise<void> {
  const bytes = makeEmptyBook(library, book);
  while (!existsSync(path)) {
    try {
      putDraft(path, bytes, book.mode);
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw explain(error, book.name);
      await delay(10);
      removeStale(path + DRAFT_END);
    }
  }
}

function makeEmptyBook(
  library: SqliteLibrary,
  { name, largestBytes = Number.POSITIVE_INFINITY }: Omit<NewBook, 'mode'>,
): Buffer {
  const connection = new library(':memory:');
  try {
    migrate(connection, name);
    const bytes = connection.serialize();
    if (bytes.length > largestBytes) throw new BookError('disk-full', `${name} ${NO_ROOM}`);
    return bytes;
  } finally {
    connection.close();
  }
}

/** @throws the system's error; `EEXIST` when another process is making it, or made it */
function putDraft(path: string, bytes: Uint8Array, mode: number): void {
  const draft = path + DRAFT_END;
  const file = openSync(draft, 'wx', mode);
  try {
    try {
      writeFileSync(file, bytes);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    nameFile(draft, path);
  } finally {
    rmSync(draft, { force: true });
  }
  syncFolder(dirname(path));
}

/** A link, unlike a new name, never takes the place of a file that came there meanwhile; not every disk knows links. */
function nameFile(draft: string, path: string): void {
  try {
    linkSync(draft, path);
  } catch (error) {
    if (!WITHOUT_LINKS.has(codeOf(error) ?? '')) throw error;
    copyFileSync(draft, path, constants.COPYFILE_EXCL);
  }
}

const WITHOUT_LINKS: ReadonlySet<string> = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']);

/** The name of a new file is on the disk when its folder is; not every system can say so. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // The book is there; only a loss of power within the next seconds could take it away, empty as it is.
  }
}

function removeStale(draft: string): void {
  const made = statSync(draft, { throwIfNoEntry: false });
  if (made !== undefined && Math.abs(Date.now() - made.mtimeMs) > STALE_MS) rmSync(draft, { force: true });
}

const NO_ROOM = 'could not be made: the disk is full. Make room and run the same again.';

const REASONS: Readonly<Record<string, readonly ['disk-full' | 'read-only' | 'cannot-open', string]>> = {
  ENOSPC: ['disk-full', NO_ROOM],
  EDQUOT: ['disk-full', NO_ROOM],
  EROFS: ['read-only', 'could not be made: the disk is read-only.'],
  EACCES: ['cannot-open', 'could not be made: this user may not write in the folder it lies in.'],
  EPERM: ['cannot-open', 'could not be made: the folder it lies in refuses new files.'],
  ENOENT: ['cannot-open', 'could not be made: the folder it lies in is not there.'],
  ENOTDIR: ['cannot-open', 'could not be made: a part of its path is no folder.'],
};

function explain(error: unknown, name: string): unknown {
  const found = REASONS[codeOf(error) ?? ''];
  return found === undefined ? error : new BookError(found[0], `${name} ${found[1]}`, { cause: error });
}

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;
