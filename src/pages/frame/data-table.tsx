import type { ComponentChildren } from 'preact';
import { printable } from '../../findings/index.js';

/** One column of a table. */
export interface TableColumn<Row> {
  readonly head: string;
  readonly cell: (row: Row, place: number) => ComponentChildren;
  /** Whether it holds figures, which stand right. */
  readonly isNumber?: boolean;
  /** Whether it holds sentences. */
  readonly isWide?: boolean;
}

/** What a table shows. */
export interface DataTableProps<Row> {
  readonly caption: string;
  /** The first column names the row. */
  readonly columns: readonly TableColumn<Row>[];
  readonly rows: readonly Row[];
  /** The id of a row, where links lead to it. */
  readonly rowId?: (row: Row, place: number) => string | undefined;
  /** Sums, one cell a column. */
  readonly footer?: readonly ComponentChildren[];
}

const LONGEST_CAPTION = 240;

/** A table that says what it is, with heads for columns and rows; what is wider than the window can be scrolled by keys. */
export function DataTable<Row>({ caption: said, columns, rows, rowId, footer }: DataTableProps<Row>) {
  const caption = printable(said, LONGEST_CAPTION);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for forms, and a region would be a landmark each
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached without a mouse
    <div class="table" role="group" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.head} scope="col" class={classOf(column)}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, place) => (
            <TableRow key={place} columns={columns} row={row} place={place} id={rowId?.(row, place)} />
          ))}
        </tbody>
        {footer === undefined ? null : <TableFoot columns={columns} footer={footer} />}
      </table>
    </div>
  );
}

/** One row of a table. */
export interface TableRowProps<Row> {
  readonly columns: readonly TableColumn<Row>[];
  readonly row: Row;
  readonly place: number;
  readonly id?: string | undefined;
}

/** One row of a table; by itself it tells how long a row is. */
export function TableRow<Row>({ columns, row, place, id }: TableRowProps<Row>) {
  return (
    <tr id={id}>
      {columns.map((column, index) =>
        index === 0 ? (
          <th key={column.head} scope="row" class={classOf(column)}>
            {column.cell(row, place)}
          </th>
        ) : (
          <td key={column.head} class={classOf(column)}>
            {column.cell(row, place)}
          </td>
        ),
      )}
    </tr>
  );
}

function TableFoot<Row>({
  columns,
  footer,
}: {
  readonly columns: readonly TableColumn<Row>[];
  readonly footer: readonly ComponentChildren[];
}) {
  return (
    <tfoot>
      <tr>
        {columns.map((column, index) =>
          index === 0 ? (
            <th key={column.head} scope="row" class={classOf(column)}>
              {footer[index]}
            </th>
          ) : (
            <td key={column.head} class={classOf(column)}>
              {footer[index]}
            </td>
          ),
        )}
      </tr>
    </tfoot>
  );
}

function classOf<Row>({ isNumber, isWide }: TableColumn<Row>): string | undefined {
  return isNumber ? 'number' : isWide ? 'wide' : undefined;
}
