import { type LocalDate, moveDate } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookRead, BookStore } from '../store/index.js';

/** One machine of a round: what the sheets call it, and the keys under which the book has its reads. */
export interface RoundMachine {
  readonly names: ReadonlySet<string>;
  readonly keys: ReadonlySet<string>;
}

/**
 * The keys under which a machine's reads may be in the book: it may have been on no roster when they came, so that its
 * numbers are tried as well.
 */
export function keysOfName(name: string, roster: Roster): string[] {
  const row = roster.machine(name);
  const [asset, serial] = row === null ? [name, name] : [row.asset, row.serial];
  return [
    `machine ${name}`,
    ...(asset === null ? [] : [`asset ${asset}`]),
    ...(serial === null ? [] : [`serial ${serial}`]),
  ];
}

/** What a machine is called by its key; null for a control board, which nobody calls anything. */
export function nameOfKey(key: string, roster: Roster): string | null {
  const at = key.indexOf(' ');
  const [kind, number] = [key.slice(0, at), key.slice(at + 1)];
  if (kind === 'machine') return number;
  if (kind === 'board') return null;
  const row = roster.books.machines.find((machine) => machine[kind === 'asset' ? 'asset' : 'serial'] === number);
  return row?.machine ?? number;
}

/** The reads of the days around one: a visit near midnight may have its capture on the day beside. */
export async function readsAround(store: BookStore, day: LocalDate): Promise<BookRead[]> {
  const reads: BookRead[] = [];
  const window = { atFrom: `${moveDate(day, -1)}T00:00:00`, atTo: `${moveDate(day, 1)}T23:59:59` };
  for await (const read of store.reads(window)) if (read.machine !== null) reads.push(read);
  return reads;
}

/** Group names that mean one machine: they share a key, or a read around the day has both numbers. */
export function groupMachines(names: Iterable<string>, around: readonly BookRead[], roster: Roster): RoundMachine[] {
  const byNumber = new Map<string, Set<string>>();
  for (const { asset, serial, machine } of around) {
    for (const number of [asset, serial]) if (number !== null) addTo(byNumber, number, machine!);
  }
  const groups = new Set<{ names: Set<string>; keys: Set<string> }>();
  for (const name of names) {
    const isOnRoster = roster.machine(name) !== null;
    const more = isOnRoster ? [] : [...(byNumber.get(name) ?? [])];
    // A number that two machines have tells nothing.
    const group = {
      names: new Set([name]),
      keys: new Set([...keysOfName(name, roster), ...(more.length === 1 ? more : [])]),
    };
    for (const other of groups) {
      if (![...group.keys].some((key) => other.keys.has(key))) continue;
      for (const each of other.names) group.names.add(each);
      for (const each of other.keys) group.keys.add(each);
      groups.delete(other);
    }
    groups.add(group);
  }
  return [...groups];
}

function addTo<K, V>(map: Map<K, Set<V>>, key: K, value: V): void {
  const set = map.get(key);
  if (set === undefined) map.set(key, new Set([value]));
  else set.add(value);
}
