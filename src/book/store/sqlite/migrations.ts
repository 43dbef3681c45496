import { BookError } from '../book-error.js';
import type { Connection } from './connection.js';
import { SCHEMA_1 } from './schema-1.js';
import { SCHEMA_2 } from './schema-2.js';

/** Statements that bring a book from each version to the next, version 0 being an empty file. A published one never changes. */
export const MIGRATIONS: readonly string[] = [SCHEMA_1, SCHEMA_2];

/** Marks a database file as a book, in its header: "Coil" in ASCII. */
export const APPLICATION_ID = 0x436f696c;

/** The version of a book as this program writes it. */
export const BOOK_VERSION: number = MIGRATIONS.length;

/**
 * The version of the book in a database; null when there is nothing in it yet. Nothing is changed.
 *
 * @param name - what the book is called in messages
 * @throws BookError `not-a-book` when there is something else in it, `newer-version` when a later program wrote it
 */
export function readVersion(connection: Connection, name: string): number | null {
  const version = connection.pragma('user_version', { simple: true }) as number;
  const mark = connection.pragma('application_id', { simple: true }) as number;
  if (mark !== APPLICATION_ID) {
    const isEmpty = connection.prepare('SELECT count(*) FROM sqlite_schema').pluck().get() === 0;
    if (isEmpty && mark === 0 && version === 0) return null;
    throw new BookError('not-a-book', `${name} is a database, but not a book. It was left as it is.`);
  }
  if (version > BOOK_VERSION) {
    throw new BookError(
      'newer-version',
      `${name} was written by a later version of this program (book version ${version}; this program knows up to ` +
        `${BOOK_VERSION}). It was left as it is: use the later program.`,
    );
  }
  return version;
}

/** Bring a book up to date, step by step; another process may be doing the same. */
export function migrate(connection: Connection, name: string, migrations: readonly string[] = MIGRATIONS): void {
  for (let isDone = false; !isDone; ) {
    // The version is read within the transaction, so that two processes do not both take the same step.
    connection
      .transaction(() => {
        const version = readVersion(connection, name) ?? 0;
        isDone = version >= migrations.length;
        if (isDone) return;
        connection.exec(migrations[version]!);
        connection.pragma(`application_id = ${APPLICATION_ID}`);
        connection.pragma(`user_version = ${version + 1}`);
      })
      .immediate();
  }
}
