import type { Roster } from '../../sheets/index.js';
import type { KnownFile } from './known-file.js';

/**
 * Names files of the book so that none has the name of another: files of different days may be called the same, and what a
 * list says of today's must not be taken for what it says of yesterday's. The first one asked for keeps its plain name.
 */
export class FileLabels {
  readonly #roster: Roster;
  readonly #byEntry = new Map<number, string>();
  readonly #byLabel = new Map<string, number>();

  constructor(roster: Roster) {
    this.#roster = roster;
  }

  /** The name by which a file goes: its own, with the number of its entry where that could be taken for another's. */
  labelOf(file: KnownFile): string {
    const known = this.#byEntry.get(file.entry);
    if (known !== undefined) return known;
    const isPlain = !this.#byLabel.has(file.name) && !this.#isAnotherListed(file);
    const label = isPlain ? file.name : `${file.name} (entry ${file.entry})`;
    this.#byEntry.set(file.entry, label);
    this.#byLabel.set(label, file.entry);
    return label;
  }

  /** The name by which an entry's file was named; null when it was not. */
  nameOf(entry: number): string | null {
    return this.#byEntry.get(entry) ?? null;
  }

  /** The entry of a file by its name; null when no file was named so. */
  entryOf(label: string): number | null {
    return this.#byLabel.get(label) ?? null;
  }

  /** Whether the captures list tells of this file. */
  isListed(file: KnownFile): boolean {
    const label = this.labelOf(file);
    return label === file.name && this.#roster.listed(label) !== null;
  }

  /** Whether the list tells of a file of that name that was received later than this one was taken in: so it is another. */
  #isAnotherListed({ name, day }: KnownFile): boolean {
    const receivedAt = this.#roster.listed(name)?.receivedAt ?? null;
    return day !== null && receivedAt !== null && receivedAt.slice(0, 10) > day;
  }
}
