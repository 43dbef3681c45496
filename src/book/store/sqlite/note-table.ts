import type { Connection } from './connection.js';

/** What is remembered under a name, such as the state that a day's output was made from. Lost without harm. */
export class NoteTable {
  readonly #write;
  readonly #remove;
  readonly #all;

  constructor(connection: Connection) {
    this.#write = connection.prepare(
      'INSERT INTO note (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    );
    this.#remove = connection.prepare('DELETE FROM note WHERE key = ?');
    this.#all = connection.prepare<[string, string], { key: string; value: string }>(
      'SELECT key, value FROM note WHERE substr(key, 1, length(?)) = ? ORDER BY key',
    );
  }

  /** Keep a note in place of the one before; null takes it away. */
  write(key: string, value: string | null): void {
    if (value === null) this.#remove.run(key);
    else this.#write.run(key, value);
  }

  /** The notes whose names begin so. */
  find(prefix: string): ReadonlyMap<string, string> {
    return new Map(this.#all.all(prefix, prefix).map(({ key, value }) => [key, value]));
  }
}
