import { quote } from './cell-reading.js';
import type { ReadRow, RowProblem, RowVerdict } from './describe-sheet.js';

/** Two rows with the same key; `first` is the first of the sheet with that key. */
export interface Repeat<Row> {
  readonly first: ReadRow<Row>;
  readonly again: ReadRow<Row>;
}

interface Placed {
  readonly place: { readonly row: number };
}

/** Rows whose key an earlier row had. Rows without a key (null) are left alone. */
export function findRepeats<Row>(
  rows: readonly ReadRow<Row>[],
  keyOf: (row: ReadRow<Row>) => string | null,
): Repeat<Row>[] {
  const firsts = new Map<string, ReadRow<Row>>();
  const repeats: Repeat<Row>[] = [];
  for (const again of rows) {
    const key = keyOf(again);
    const first = key === null ? undefined : firsts.get(key);
    if (first !== undefined) repeats.push({ first, again });
    else if (key !== null) firsts.set(key, again);
  }
  return repeats;
}

/** Keep the first of the rows with one key and take the others out. */
export function keepFirst<Row extends Placed>(
  rows: readonly ReadRow<Row>[],
  field: string,
  keyOf: (row: Row) => string,
  describe: (row: Row) => string,
): RowVerdict<Row>[] {
  return findRepeats(rows, ({ row }) => keyOf(row)).map(({ first, again }) => ({
    about: again,
    problem: repeatProblem(
      `${describe(again.row)} was named in row ${first.row.place.row} already`,
      field,
      first,
      'row',
    ),
  }));
}

/** Say of rows that share what should be one row's own, and keep them all. */
export function keepAll<Row extends Placed>(
  rows: readonly ReadRow<Row>[],
  field: string,
  sharedOf: (row: Row) => string | null,
): RowVerdict<Row>[] {
  return findRepeats(rows, ({ row }) => sharedOf(row)).map(({ first, again }) => {
    const says = `${field} ${quote(sharedOf(again.row)!)} belongs to row ${first.row.place.row} as well`;
    return { about: again, problem: repeatProblem(says, field, first, 'nothing', 'Both rows are used.') };
  });
}

/** A row that names what another row named. */
export function repeatProblem(
  says: string,
  field: string,
  first: ReadRow<Placed>,
  spoils: 'row' | 'nothing',
  done?: string,
): RowProblem {
  const relatedRow = first.row.place.row;
  return { code: 'duplicate-row', says, field, relatedRow, spoils, ...(done === undefined ? {} : { done }) };
}
