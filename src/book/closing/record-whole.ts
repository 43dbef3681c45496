import { BookError, type BookStore } from '../store/index.js';
import { PlannedBook } from './planned-book.js';

/** How often a closing is worked out anew, because something was added to the book meanwhile. */
const ATTEMPTS = 20;

/**
 * Record entries that rest on a book of one size, all or none; when it has grown meanwhile, they are made anew.
 *
 * @param plan - plans the entries, and says what came of it
 * @throws BookError (as a rejection) `busy` when the book keeps being added to
 */
export async function recordWhole<Result>(
  store: BookStore,
  plan: (book: PlannedBook) => Promise<Result>,
): Promise<Result> {
  for (let attempt = 1; attempt <= ATTEMPTS; attempt++) {
    const { size } = await store.head();
    const book = new PlannedBook(store, size);
    const result = await plan(book);
    const outcome = book.entries.length === 0 ? null : await store.recordEntries(book.entries, size);
    if (outcome?.state !== 'moved-on') return result;
  }
  throw new BookError(
    'busy',
    'The book keeps being added to. Nothing was recorded: run this again when the other run is done.',
  );
}
