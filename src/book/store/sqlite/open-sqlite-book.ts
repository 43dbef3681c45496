import { existsSync, statSync } from 'node:fs';
import { setTimeout as delay } from 'node:timers/promises';
import { printable } from '../../../findings/index.js';
import { BookError } from '../book-error.js';
import type { BookStore } from '../book-store.js';
import { type Connection, loadSqlite, type SqliteLibrary, sqliteCode } from './connection.js';
import { explainError } from './explain-error.js';
import { BOOK_VERSION, migrate, readVersion } from './migrations.js';
import { SqliteBook } from './sqlite-book.js';

/** How a book shall be opened. */
export interface OpenBookOptions {
  /** Only look at it. Default false. */
  readonly isReadOnly?: boolean;
  /** Make a new one where there is none. Default false. */
  readonly create?: boolean;
  /** How long to wait for another process to finish with it, in milliseconds. Default 30 seconds. */
  readonly waitMs?: number;
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
 * @throws BookError (as a rejection) `library-missing`, `not-found`, `not-a-book`, `newer-version`, `older-version`,
 *   `cannot-open`, `read-only`, `busy`, `corrupted`
 * @example const book = await openSqliteBook('coilbook.db', { create: true });
 */
export async function openSqliteBook(path: string, options: OpenBookOptions = {}): Promise<BookStore> {
  const library = await loadSqlite();
  const name = `The book ${printable(path, 200)}`;
  checkThere(path, name, options.create === true && options.isReadOnly !== true);
  let connection: Connection | null = null;
  try {
    connection = connect(library, path, options);
    await prepareFile(connection, name, options);
    return new SqliteBook(connection, name);
  } catch (error) {
    connection?.close();
    throw explainError(error, name);
  }
}

function checkThere(path: string, name: string, mayCreate: boolean): void {
  const isThere = existsSync(path);
  if (isThere && statSync(path).isDirectory()) {
    throw new BookError('cannot-open', `${name} could not be opened: it is a folder.`);
  }
  if (!isThere && !mayCreate) {
    throw new BookError('not-found', `${name} is not there. Say where it is, or take in a first day to make one.`);
  }
}

function connect(library: SqliteLibrary, path: string, options: OpenBookOptions): Connection {
  const { isReadOnly = false, create = false, waitMs = WAIT_MS } = options;
  try {
    return new library(path, { readonly: isReadOnly, fileMustExist: isReadOnly || !create, timeout: waitMs });
  } catch (error) {
    // The library has an error of its own for this one.
    if (!(error instanceof TypeError)) throw error;
    throw new BookError('cannot-open', `The book ${printable(path, 200)} could not be opened: ${error.message}.`);
  }
}

/** Make sure that it is a book, bring it up to date, and set how it is worked with. */
async function prepareFile(connection: Connection, name: string, options: OpenBookOptions): Promise<void> {
  // Looked at before anything is set: what is no book, or a later program's, must stay as it is.
  const version = readVersion(connection, name);
  if (version === null && (options.isReadOnly === true || options.create !== true)) {
    throw new BookError('not-a-book', `${name} is empty: there is no book in it.`);
  }
  if (options.isReadOnly !== true) {
    await useWriteAheadLog(connection, options.waitMs ?? WAIT_MS);
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    if (options.largestBytes !== undefined) limitSize(connection, options.largestBytes);
    migrate(connection, name);
  } else if (version !== null && version < BOOK_VERSION) {
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
