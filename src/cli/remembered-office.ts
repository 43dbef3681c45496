import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { EarlierOffice } from '../index.js';
import { type BookToOpen, withBook } from './open-book.js';
import type { Terminal } from './terminal.js';

/**
 * What a book remembers of the office: it holds where a sheet is not given now, for amounts in other sheets too. Nothing where
 * there is no book yet.
 */
export async function rememberedOffice(
  book: Pick<BookToOpen, 'book' | 'isReadOnly'>,
  terminal: Terminal,
): Promise<EarlierOffice | undefined> {
  if (!existsSync(resolve(terminal.cwd, book.book))) return undefined;
  const { recallOffice } = await import('../book/run/index.js');
  return withBook(book, terminal, recallOffice);
}
