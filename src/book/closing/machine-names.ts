import { keysOfNumbers, type LocalDate, moveDate, sheetNameOfKey } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookRead, BookStore } from '../store/index.js';

/** One machine of a round: what the sheets call it, and the keys under which the book has its reads. */
export interface RoundMachine {
  readonly names: ReadonlySet<string>;
  readonly keys: ReadonlySet<string>;
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
  for (const read of around) {
    for (const key of keysOfNumbers(read)) addTo(byNumber, sheetNameOfKey(key), read.machine!);
  }
  const groups = new Set<{ names: Set<string>; keys: Set<string> }>();
  for (const name of names) {
    const isOnRoster = roster.machine(name) !== null;
    const more = isOnRoster ? [] : [...(byNumber.get(name) ?? [])];
    // A number that two machines have tells nothing.
    const group = {
      names: new Set([name]),
      keys: new Set([...roster.keysOfMachine(name), ...(more.length === 1 ? more : [])]),
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
