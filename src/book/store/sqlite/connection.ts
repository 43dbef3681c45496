import type Database from 'better-sqlite3';
import { BookError } from '../book-error.js';

/** An open database. */
export type Connection = Database.Database;

/** The database library: what makes connections. */
export type SqliteLibrary = new (path: string, options?: Database.Options) => Connection;

/**
 * The database library, loaded when it is needed and not before: all other commands work without it.
 *
 * @param load - how to load it
 * @throws BookError `library-missing`
 */
export async function loadSqlite(
  load: () => Promise<{ readonly default: SqliteLibrary }> = () => import('better-sqlite3'),
): Promise<SqliteLibrary> {
  try {
    const { default: library } = await load();
    // The native part is loaded by the first connection, and is what fails where it was built for another Node.
    new library(':memory:').close();
    return library;
  } catch (error) {
    throw new BookError(
      'library-missing',
      'The book needs the package better-sqlite3, which is not installed or does not run here. ' +
        'Install it with `npm install better-sqlite3@12`; everything that needs no book works without it.',
      { cause: error },
    );
  }
}

/** Whether an error came from the database, and its code, such as `SQLITE_FULL`. */
export function sqliteCode(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null;
  return error.code.startsWith('SQLITE_') ? error.code : null;
}
