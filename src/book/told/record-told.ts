import { BookError, type BookStore, type EntryToRecord, type WorkedOutRead } from '../store/index.js';

/** An entry that tells something, and the reads that are another machine's, time's or visit's by it. */
export interface ToldChange {
  readonly entry: EntryToRecord;
  readonly reads: readonly WorkedOutRead[];
}

/** How often it is looked up anew what an entry changes, because something was added to the book meanwhile. */
const ATTEMPTS = 20;

/**
 * Record what was told together with all that it changes, or nothing of it.
 *
 * @param plan - looks up what is to be told and changed in the book as it is; null where nothing is
 * @returns the number of the entry; null where nothing was told
 * @throws BookError (as a rejection) `busy` when the book keeps being added to
 */
export async function recordTold(store: BookStore, plan: () => Promise<ToldChange | null>): Promise<number | null> {
  for (let attempt = 1; attempt <= ATTEMPTS; attempt++) {
    const { size } = await store.head();
    const change = await plan();
    if (change === null) return null;
    const outcome = await store.recordEntries([change.entry], size, change.reads);
    if (outcome.state === 'done') return outcome.entries[0]!.seq;
  }
  throw new BookError(
    'busy',
    'The book keeps being added to. Nothing was recorded: run this again when the other run is done.',
  );
}
