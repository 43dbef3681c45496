import type { LocalDate } from '../../model/index.js';
import { countChanges } from '../run/index.js';
import type { BookStore } from '../store/index.js';
import { COUNT_KINDS } from './book-counts.js';

/** The note of the size that the book had when its rounds were last gone through. */
const LOOKED = 'rounds looked at';

/**
 * Count a change for each day of which tables were written and of which bags were recorded, corrected or taken out, or a
 * closed round was adjusted, since this was last done: its table of visits says something else now.
 */
export async function countChangedRounds(store: BookStore): Promise<void> {
  const { size } = await store.head();
  const looked = Number((await store.notes(LOOKED)).get(LOOKED) ?? 0);
  if (looked === size) return;
  const days = new Set<LocalDate>();
  for await (const { day } of store.entries({ from: looked, kinds: [...COUNT_KINDS, 'adjustment'] })) {
    if (day !== null) days.add(day);
  }
  await countChanges(store, days);
  // Afterwards: killed in between, they are counted once more, and a folder is made again that need not be.
  await store.writeNotes(new Map([[LOOKED, String(size)]]));
}
