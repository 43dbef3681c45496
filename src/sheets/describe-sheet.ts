import type { FindingCode } from '../findings/index.js';
import type { SheetPlace } from '../model/index.js';
import type { CellContext } from './cell-reading.js';
import type { Column } from './columns.js';
import type { ExtraColumn } from './match-header.js';

/** Something wrong with a row or one of its cells; `says` and `expected` complete "…; expected …". */
export interface RowProblem {
  readonly code: FindingCode;
  readonly says: string;
  readonly expected?: string;
  /** Name of the column. */
  readonly field?: string;
  /** The cell as it came. */
  readonly received?: string;
  /** What it takes with it: the row, the cell (which then counts as not stated), or nothing. */
  readonly spoils: 'row' | 'cell' | 'nothing';
  /** What was done, where nothing is spoiled. */
  readonly done?: string;
  /** The other row it is about. */
  readonly relatedRow?: number;
}

/** A usable row beside its cells as they came. */
export interface ReadRow<Row> {
  readonly row: Row;
  readonly cells: readonly string[];
}

/** A row's cell in a column beyond the named ones; never empty. */
export interface ExtraCell<Extra> {
  readonly column: ExtraColumn<Extra>;
  readonly text: string;
}

/** A finished row, or null where its problems leave none. */
export interface FinishedRow<Row> {
  readonly row: Omit<Row, 'place'> | null;
  readonly problems: readonly RowProblem[];
}

/** What comparing the rows brought up about one of them; a problem that spoils the row takes it out. */
export interface RowVerdict<Row> {
  readonly about: ReadRow<Row>;
  readonly problem: RowProblem;
}

/** Everything that makes one kind of sheet differ from another. */
export interface SheetDescription<Row extends { readonly place: SheetPlace }, Values, Extra = never> {
  /** What the sheet is called in messages, such as `counts`. */
  readonly name: string;
  /** Its columns, by the property of the row they become. */
  readonly columns: { readonly [Key in keyof Values]: Column<Values[Key]> };
  /** What a column beyond the named ones means, by its header as written; null when nothing. */
  readonly readExtra?: (header: string) => Extra | null;
  /** A column that must be there, said in words, where that depends on more than one name; null when nothing is missing. */
  readonly findMissing?: (names: ReadonlySet<string>, extras: readonly ExtraColumn<Extra>[]) => string | null;
  /** Amounts that stand in headers beyond the named columns, and show which marks the sheet uses. */
  readonly amountOfExtra?: (extra: Extra) => string;
  /** Make the row of its values; without this they are the row. */
  readonly finishRow?: (values: Values, extras: readonly ExtraCell<Extra>[], context: CellContext) => FinishedRow<Row>;
  /** Look for rows that name what another named. */
  readonly compareRows?: (rows: readonly ReadRow<Row>[]) => readonly RowVerdict<Row>[];
}
