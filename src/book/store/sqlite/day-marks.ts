import { CHANGED_NOTE, TABLES_NOTE } from '../day-notes.js';
import type { ReadKey, WorkedOutRead } from '../reads.js';
import type { Connection } from './connection.js';
import type { StoredStep } from './step-table.js';

/**
 * Counts how often the tables of a day, where some were written, came to be told otherwise: a step is told in the table of the
 * day that took in the file with its later read, so a step that goes, comes or changes concerns that day alone. It is counted
 * in the transaction that changes the step, so that no change goes by.
 */
export class DayMarks {
  readonly #count;

  constructor(connection: Connection) {
    this.#count = connection.prepare(
      `INSERT INTO note (key, value) SELECT '${CHANGED_NOTE}' || day, '1' FROM entry ` +
        `WHERE seq = ? AND EXISTS (SELECT 1 FROM note WHERE key = '${TABLES_NOTE}' || entry.day) ` +
        'ON CONFLICT (key) DO UPDATE SET value = CAST(CAST(value AS INTEGER) + 1 AS TEXT)',
    );
  }

  /** Count a change for the days that took in these reads. */
  count(ends: Iterable<ReadKey>): void {
    for (const entry of new Set([...ends].map((end) => end.entry))) this.#count.run(entry);
  }
}

/** The reads at the ends of steps of which there are other ones now than there were. */
export function listChanged(before: readonly StoredStep[], now: readonly StoredStep[]): ReadKey[] {
  const was = new Map(before.map((step) => [nameOf(step), step]));
  const changed: ReadKey[] = [];
  for (const step of now) {
    const known = was.get(nameOf(step));
    was.delete(nameOf(step));
    if (known === undefined || !isAlike(known, step)) changed.push(step);
  }
  return [...changed, ...was.values()];
}

const nameOf = ({ entry, number }: ReadKey): string => `${entry}/${number}`;

function isAlike(a: StoredStep, b: StoredStep): boolean {
  const isSame = a.fromEntry === b.fromEntry && a.fromNumber === b.fromNumber && a.layout === b.layout;
  return isSame && Buffer.compare(a.figures, b.figures) === 0;
}

/** What rows say of a read itself, beside what a step says. */
export type ToldOfRead = Pick<WorkedOutRead, 'at' | 'currency' | 'decimals'>;

/** Whether rows tell something else of a read now. */
export function isToldOtherwise(was: ToldOfRead, now: ToldOfRead): boolean {
  return was.at !== now.at || was.currency !== now.currency || was.decimals !== now.decimals;
}
