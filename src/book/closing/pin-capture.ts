import type { CountRow } from '../../model/index.js';
import { baseName, type Roster } from '../../sheets/index.js';
import { readFileEntry } from '../recall/index.js';
import type { BookStore } from '../store/index.js';

/**
 * The entry of the capture that a row names: the machine's only file of that name on the day of the visit. Names of files come
 * again, and a later one must not take the bag. Null where none is named, or none or several have the name.
 */
export async function pinCapture(
  store: BookStore,
  { machine, visitedAt: { date }, capture }: CountRow,
  roster: Roster,
): Promise<number | null> {
  if (capture === null) return null;
  const entries = new Set<number>();
  for (const key of roster.keysOfMachine(machine)) {
    const reads = await store.readsOf(key, { from: `${date}T00:00:00`, to: `${date}T23:59:59` });
    for (const { entry } of reads) entries.add(entry);
  }
  const found: number[] = [];
  for (const seq of entries) {
    const entry = await store.entry(seq);
    if (entry !== null && baseName(readFileEntry(entry).name) === baseName(capture)) found.push(seq);
  }
  return found.length === 1 ? found[0]! : null;
}
