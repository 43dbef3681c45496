import { printable } from '../findings/index.js';
import type { CountRow } from '../model/index.js';
import { visitedAtOf } from './collection.js';

const BAG_CHARACTERS = 30;

/** A bag by its name, else by its visit: `bag B1`, `the bag of 2026-11-24 10:15`. */
export function nameBag(count: CountRow): string {
  return count.bag === null
    ? `the bag of ${tellWhen(visitedAtOf(count))}`
    : `bag ${printable(count.bag, BAG_CHARACTERS)}`;
}

/** A bag by its name and its visit: `bag B1 of 2026-11-24 10:15`. */
export function nameBagAndVisit(count: CountRow): string {
  return count.bag === null ? nameBag(count) : `${nameBag(count)} of ${tellWhen(visitedAtOf(count))}`;
}

/** A date, or a date and time, as people write it; seconds only where they are not 0. */
export function tellWhen(when: string): string {
  return when.replace('T', ' ').replace(/(\d\d:\d\d):00$/, '$1');
}

/** Names joined for a sentence: `A, B and C`. */
export function joinNames(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** The drivers of several bags, each once; those that no row and no roster names are left out. */
export function driversOf(counts: readonly CountRow[], usual: string | null): readonly string[] {
  return [...new Set(counts.map(({ driver }) => driver ?? usual).filter((driver) => driver !== null))];
}
