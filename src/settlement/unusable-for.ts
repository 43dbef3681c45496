import type { UnusableCount } from '../model/index.js';
import type { Roster } from '../sheets/index.js';

/**
 * Rows that could not be used as some machines are settled with them: their own; and those of machines that nobody knows,
 * which may be theirs, and are no visits of theirs.
 *
 * @param names - what the machines are called
 */
export function unusableFor(
  names: ReadonlySet<string>,
  rows: readonly UnusableCount[],
  roster: Roster,
): UnusableCount[] {
  return rows.flatMap((row) => {
    if (row.machine !== null && names.has(row.machine)) return [row];
    return row.machine === null || roster.machine(row.machine) === null ? [{ ...row, visitedAt: null }] : [];
  });
}
