import { resolve } from 'node:path';
import type { BookStore } from '../book/index.js';
import { InputError } from './exit-status.js';
import type { Terminal } from './terminal.js';

/** Where the book lies when nothing else is said, in the working folder. */
export const DEFAULT_BOOK = 'coilbook.db';

/** Which book, and how it shall be opened. */
export interface BookToOpen {
  /** Its file, as the user named it. */
  readonly book: string;
  /** Only look at it. Default false. */
  readonly isReadOnly?: boolean;
  /** Make a new one where there is none. Default false. */
  readonly create?: boolean;
  /** How long to wait for another process to finish with it, in milliseconds. Default 30 seconds. */
  readonly waitMs?: number;
}

/**
 * Work with the book, and let go of it whatever happens. The modules of the book are loaded only here, so that everything
 * that needs no book runs where its database can not.
 *
 * @param work - given the open book; what it gives is given back
 * @throws InputError that says what is the case with the book and what to do, when it can not be used
 * @example await withBook({ book: options.book, isReadOnly: true }, terminal, (book) => book.head());
 */
export async function withBook<T>(
  { book: file, ...how }: BookToOpen,
  { cwd }: Pick<Terminal, 'cwd'>,
  work: (book: BookStore) => Promise<T>,
): Promise<T> {
  const { BookError, openSqliteBook } = await import('../book/index.js');
  try {
    const book = await openSqliteBook(resolve(cwd, file), { ...how, mode: 0o666 & ~process.umask() });
    try {
      return await work(book);
    } finally {
      await book.close();
    }
  } catch (error) {
    // A refusal is no circumstance of the user's: something tried to change what is recorded.
    if (error instanceof BookError && error.kind !== 'refused') throw new InputError(error.message, { cause: error });
    throw error;
  }
}

/** The paths that a book takes up: its file, and those that lie beside it while it is made or open. */
export function pathsOfBook(file: string, { cwd }: Pick<Terminal, 'cwd'>): readonly string[] {
  const path = resolve(cwd, file);
  return ['', '-wal', '-shm', '-journal', '-new'].map((end) => path + end);
}
