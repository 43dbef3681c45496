import type { LocalDate } from '../../model/index.js';
import { type BookStore, CHANGED_NOTE, TABLES_NOTE } from '../store/index.js';

/** A day of which tables were written, as the book remembers it. */
export interface ToldDay {
  readonly day: LocalDate;
  /** Where they were written, as whoever wrote them names it; the latest last. */
  readonly folders: readonly string[];
  /** How often what they tell came to be otherwise, whoever wrote them anew meanwhile. */
  readonly changes: number;
}

/** The days of which tables were written, and something in them has changed since; by day. */
export async function listChangedDays(store: BookStore): Promise<ToldDay[]> {
  const changed = await store.notes(CHANGED_NOTE);
  if (changed.size === 0) return [];
  const tables = await store.notes(TABLES_NOTE);
  return [...changed].map(([key, count]) => {
    const day = key.slice(CHANGED_NOTE.length);
    return { day, folders: readFolders(tables.get(`${TABLES_NOTE}${day}`)), changes: Number(count) };
  });
}

/** The last day of which tables were written; null where none were. */
export async function lastToldDay(store: BookStore): Promise<LocalDate | null> {
  const days = [...(await store.notes(TABLES_NOTE)).keys()].map((key) => key.slice(TABLES_NOTE.length));
  return days.sort().at(-1) ?? null;
}

/** How often what the tables of a day tell came to be otherwise so far. */
export async function changesOf(store: BookStore, day: LocalDate): Promise<number> {
  const key = `${CHANGED_NOTE}${day}`;
  return Number((await store.notes(key)).get(key) ?? 0);
}

/** Keep where the tables of a day were written, so that it can be said that they have changed. */
export async function rememberTables(store: BookStore, day: LocalDate, folder: string): Promise<void> {
  const key = `${TABLES_NOTE}${day}`;
  const known = (await store.notes(key)).get(key);
  const folders = [...readFolders(known).filter((one) => one !== folder), folder];
  const text = JSON.stringify(folders);
  if (text !== known) await store.writeNotes(new Map([[key, text]]));
}

function readFolders(note: string | undefined): string[] {
  if (note === undefined) return [];
  const read: unknown = JSON.parse(note);
  return Array.isArray(read) ? read.filter((one) => typeof one === 'string') : [];
}

/** Count a change for those of some days of which tables were written. */
export async function countChanges(store: BookStore, days: Iterable<LocalDate>): Promise<void> {
  const asked = new Set(days);
  if (asked.size === 0) return;
  const tables = await store.notes(TABLES_NOTE);
  const changed = await store.notes(CHANGED_NOTE);
  const told = [...asked].filter((day) => tables.has(`${TABLES_NOTE}${day}`));
  const notes = told.map((day): [string, string] => {
    const key = `${CHANGED_NOTE}${day}`;
    return [key, String(Number(changed.get(key) ?? 0) + 1)];
  });
  if (notes.length > 0) await store.writeNotes(new Map(notes));
}
