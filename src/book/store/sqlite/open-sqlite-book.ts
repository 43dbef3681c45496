import { statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { setTimeout as delay } from 'node:timers/promises';
import { printable } from '../../../findings/index.js';
import { BookError } from '../book-error.js';
import type { BookStore } from '../book-store.js';
import { type Connection, loadSqlite, type SqliteLibrary, sqliteCode } from './connection.js';
import { explainError } from './explain-error.js';
import { makeBookFile } from './make-book-file.js';
import { BOOK_VERSION, migrate, readVersion } from './migrations.js';
import { openPrivateCopy } from './private-copy.js';
import { SqliteBook } from './sqlite-book.js';

/** How a book shall be opened. */
export interface OpenBookOptions {
  /** Only look at it. Default false. */
  readonly isReadOnly?: boolean;
  /** Make a new one where there is none. Default false. */
  readonly create?: boolean;
  /** How long to wait for another process to finish with it, in milliseconds. Default 30 seconds. */
  readonly waitMs?: number;
  /** Who may read and write a new one, as POSIX has it. Default: its owner alone. */
  readonly mode?: number;
  /** The book's file may not grow beyond that, as if the disk were full; in bytes. Default: no limit but the disk's. */
  readonly largestBytes?: number;
}

const WAIT_MS = 30_000;

/**
 * Open a book kept in an SQLite file.
 *
 * What a call records is on the disk when its promise resolves, also after a loss of power. Beside the file lie, while it is
 * open, two more with `-wal` and `-shm` at the end of their names: they belong to it and are to be copied with it.
 *
 * One that is only looked at may lie where nothing can be written: then a private copy of it is read, which is brought up to
 * date where an earlier version of the program wrote it.
 *
 * @throws BookError (as a rejection) `library-missing`, `not-found`, `not-a-book`, `newer-version`, `older-version`,
 *   `cannot-open`, `read-only`, `busy`, `corrupted`
 * @example const book = await openSqliteBook('coilbook.db', { create: true });
 */
export async function openSqliteBook(path: string, options: OpenBookOptions = {}): Promise<BookStore> {
  const library = await loadSqlite();
  const name = `The book ${printable(path, 200)}`;
  const { isReadOnly = false, create = false, mode = 0o600, largestBytes } = options;
  if (checkThere(path, name, create && !isReadOnly) === 'new') {
    await makeBookFile(library, path, { name, mode, ...(largestBytes === undefined ? {} : { largestBytes }) });
  }
  let connection: Connection | null = null;
  try {
    connection = new library(path, { readonly: isReadOnly, fileMustExist: true, timeout: options.waitMs ?? WAIT_MS });
    await prepareFile(connection, name, options);
    return new SqliteBook(connection, name);
  } catch (error) {
    connection?.close();
    const explained = explainError(error, name);
    if (!isReadOnly || !isRefusal(explained)) throw explained;
    return openCopy(library, path, name, explained);
  }
}

/** @throws BookError where there is nothing that could be a book, or may not be made one */
function checkThere(path: string, name: string, mayCreate: boolean): 'there' | 'new' {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) {
    // SQLite would take the log of another book into a new one.
    const log = statSync(`${path}-wal`, { throwIfNoEntry: false });
    if (log !== undefined && log.size > 0) throw new BookError('not-a-book', `${name} ${ONLY_LOG}`);
    if (mayCreate) return 'new';
    throw new BookError('not-found', `${name} is not there. Say where it is, or take in a first day to make one.`);
  }
  if (found.isDirectory()) throw new BookError('cannot-open', `${name} could not be opened: it is a folder.`);
  // Not left to SQLite, which takes the log of an empty file away.
  if (found.isFile() && found.size === 0) throw new BookError('not-a-book', `${name} ${EMPTY}`);
  return 'there';
}

const EMPTY =
  'is empty: whatever was in it is gone. Put a copy of the book in its place, with the files beside it (-wal); if there never ' +
  'was a book, remove the file, and the next day that is taken in begins one.';

const ONLY_LOG =
  'is gone, but its log (-wal) is still there, with what was recorded last. Put the book back beside it, or a copy of the book ' +
  'with the log of that copy; only if there is nothing to be kept, remove the log.';

/** The place it lies in may be what refuses: SQLite needs to write beside a book even to read it. */
const isRefusal = (error: unknown): boolean =>
  error instanceof BookError && (error.kind === 'read-only' || error.kind === 'cannot-open');

/** @param refused - why it can not be opened where it lies: told where it can not be copied either */
function openCopy(library: SqliteLibrary, path: string, name: string, refused: unknown): BookStore {
  try {
    const { connection, discard } = openPrivateCopy(library, path, (copy) => {
      if (readVersion(copy, name) === null) throw new BookError('not-a-book', `${name} ${EMPTY}`);
      migrate(copy, name);
    });
    return new SqliteBook(connection, name, discard);
  } catch (error) {
    const explained = explainError(error, name);
    if (explained instanceof BookError) throw explained;
    if (NO_ROOM.has((error as NodeJS.ErrnoException).code ?? '')) throw sayNoRoom(name, error);
    throw refused;
  }
}

const NO_ROOM: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT']);

const sayNoRoom = (name: string, cause: unknown): BookError =>
  new BookError(
    'disk-full',
    `${name} lies where nothing may be written, and there is no room for a copy to read from. Make room in ` +
      `${printable(tmpdir(), 200)}, or set TMPDIR to a folder with more.`,
    { cause },
  );

/** Make sure that it is a book, bring it up to date, and set how it is worked with. */
async function prepareFile(connection: Connection, name: string, options: OpenBookOptions): Promise<void> {
  // Looked at before anything is set: what is no book, or a later program's, must stay as it is.
  const version = readVersion(connection, name);
  if (version === null) throw new BookError('not-a-book', `${name} ${EMPTY}`);
  if (options.isReadOnly !== true) {
    await useWriteAheadLog(connection, options.waitMs ?? WAIT_MS);
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    if (options.largestBytes !== undefined) limitSize(connection, options.largestBytes);
    migrate(connection, name);
  } else if (version < BOOK_VERSION) {
    throw new BookError(
      'older-version',
      `${name} was written by an earlier version of this program. Open it once for writing to bring it up to date.`,
    );
  }
  connection.pragma('cache_size = -8192');
}

/** Switching the journal needs the file alone, and does not wait for it by itself. */
async function useWriteAheadLog(connection: Connection, waitMs: number): Promise<void> {
  for (const end = Date.now() + waitMs; ; await delay(20)) {
    try {
      connection.pragma('journal_mode = WAL');
      return;
    } catch (error) {
      if (sqliteCode(error)?.startsWith('SQLITE_BUSY') !== true || Date.now() > end) throw error;
    }
  }
}

function limitSize(connection: Connection, largestBytes: number): void {
  const pageBytes = connection.pragma('page_size', { simple: true }) as number;
  connection.pragma(`max_page_count = ${Math.max(1, Math.floor(largestBytes / pageBytes))}`);
}
