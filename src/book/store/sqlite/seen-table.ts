import type { FileFacts } from '../captures.js';
import type { Connection } from './connection.js';

/** The table of files that were looked at before. */
export class SeenTable {
  readonly #find;
  readonly #mark;

  constructor(connection: Connection) {
    this.#find = connection
      .prepare<[string, number, number, number], number>(
        'SELECT entry FROM seen_file WHERE path = ? AND size = ? AND modified_ms = ? AND changed_ms = ?',
      )
      .pluck();
    this.#mark = connection.prepare(
      'INSERT INTO seen_file (path, size, modified_ms, changed_ms, entry) VALUES (?, ?, ?, ?, ?) ON CONFLICT (path) ' +
        'DO UPDATE SET size = excluded.size, modified_ms = excluded.modified_ms, changed_ms = excluded.changed_ms, ' +
        'entry = excluded.entry',
    );
  }

  /** The entry that a file was recorded under; null when it is new or not as it was. */
  find({ path, size, modifiedMs, changedMs }: FileFacts): number | null {
    return this.#find.get(path, size, modifiedMs, changedMs) ?? null;
  }

  mark({ path, size, modifiedMs, changedMs }: FileFacts, entry: number): void {
    this.#mark.run(path, size, modifiedMs, changedMs, entry);
  }
}
