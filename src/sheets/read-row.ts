import type { SheetPlace } from '../model/index.js';
import type { NumberMarks } from './amount-shape.js';
import { type CellContext, quote } from './cell-reading.js';
import type { ColumnShapes } from './column-shapes.js';
import type { Column } from './columns.js';
import type { ReadRow, RowProblem, SheetDescription } from './describe-sheet.js';
import type { HeaderMatch } from './match-header.js';
import type { MoneyRules } from './money-rules.js';
import type { CellRow, Separator } from './split-cells.js';

/** What reading a row depends on: the same for all rows of a sheet. */
export interface RowSetting<Row extends { readonly place: SheetPlace }, Values, Extra> {
  readonly file: string;
  readonly description: SheetDescription<Row, Values, Extra>;
  /** Holds the value of a column against its shape. */
  readonly shapes: ColumnShapes;
  readonly header: HeaderMatch<Extra>;
  /** The header as it was written, also with empty cells at its end. */
  readonly headerCells: readonly string[];
  readonly separator: Separator;
  readonly marks: NumberMarks;
  readonly taken: Set<string>;
  readonly money: MoneyRules;
}

/** A row as far as it could be read. */
export interface RowReading<Row> {
  readonly machine: string | null;
  readonly read: ReadRow<Row> | null;
  /** Its values as far as they could be read, also where they make no row. */
  readonly values: Readonly<Record<string, unknown>>;
  readonly problems: readonly RowProblem[];
}

/** Read one row: its cells, each by its column; then its shape as a whole; then what the sheet makes of it. */
export function readRow<Row extends { readonly place: SheetPlace }, Values, Extra>(
  record: CellRow,
  setting: RowSetting<Row, Values, Extra>,
): RowReading<Row> {
  const { description, header } = setting;
  const machine = record.cells[header.indexes.get('machine') ?? -1] || null;
  const misfit = findMisfit(record, setting);
  if (misfit !== null) return { machine, read: null, values: {}, problems: [misfit] };
  const context = makeContext(machine, setting);
  const { values, problems } = readCells(record, setting, context);
  const told = values as Readonly<Record<string, unknown>>;
  if (problems.some(({ spoils }) => spoils === 'row')) return { machine, read: null, values: told, problems };
  const extras = header.extras
    .map((column) => ({ column, text: record.cells[column.index] ?? '' }))
    .filter(({ text }) => text !== '');
  const finished = description.finishRow?.(values, extras, context) ?? { row: values as unknown as Row, problems: [] };
  const place = { file: setting.file, row: record.row };
  const read = finished.row === null ? null : { row: { ...finished.row, place } as Row, cells: record.cells };
  return { machine, read, values: told, problems: [...problems, ...finished.problems] };
}

function makeContext<Row extends { readonly place: SheetPlace }, Values, Extra>(
  machine: string | null,
  { marks, separator, taken, money }: RowSetting<Row, Values, Extra>,
): CellContext {
  const decimals = (machine === null ? null : money.decimalsOf(machine)) ?? money.defaultDecimals;
  const currency = machine === null ? null : money.currencyOf(machine);
  return { machine, decimals, currency, marks, separator, taken };
}

/** Cells to values. A cell that cannot be used is null among the values and named by a problem. */
function readCells<Row extends { readonly place: SheetPlace }, Values, Extra>(
  { cells }: CellRow,
  { description, header, shapes }: RowSetting<Row, Values, Extra>,
  context: CellContext,
): { values: Values; problems: RowProblem[] } {
  const values: Record<string, unknown> = {};
  const problems = new Map<string, RowProblem>();
  const columns = description.columns as Readonly<Record<string, Column<unknown>>>;
  const textOf = ({ header: name }: Column<unknown>): string => cells[header.indexes.get(name) ?? -1] ?? '';
  for (const [key, column] of Object.entries(columns)) {
    const text = textOf(column);
    const reading = text === '' ? { value: null } : column.parse(text, context);
    values[key] = 'value' in reading ? reading.value : null;
    if ('refusal' in reading) problems.set(key, { ...reading.refusal, ...tellColumn(column, text) });
  }
  for (const [key, column] of Object.entries(columns)) {
    const refusal = shapes.refuse(key, values[key]);
    if (refusal === null) continue;
    const text = textOf(column);
    const says = text === '' ? 'the cell is empty' : `${quote(text)} ${refusal}`;
    if (!problems.has(key))
      problems.set(key, { code: 'bad-cell', says, expected: column.expected, ...tellColumn(column, text) });
    values[key] = null;
  }
  // Where a value is not what the shape asks for it is null now, or its problem takes the row out.
  return { values: values as Values, problems: [...problems.values()] };
}

function tellColumn(column: Column<unknown>, received: string): Pick<RowProblem, 'field' | 'received' | 'spoils'> {
  return { field: column.header, received, spoils: column.spoils };
}

/** Whether the row's cells may stand under the wrong headers. */
function findMisfit<Row extends { readonly place: SheetPlace }, Values, Extra>(
  { cells, hasBrokenQuotes }: CellRow,
  setting: RowSetting<Row, Values, Extra>,
): RowProblem | null {
  const { header, headerCells, separator } = setting;
  if (hasBrokenQuotes) return describeBrokenQuotes(cells);
  if (isSameRow(cells, headerCells)) return { code: 'bad-row', says: 'repeats the header', spoils: 'row' };
  const filled = cells.findLastIndex((cell) => cell !== '') + 1;
  const isTooLong = filled > header.width;
  const isSplit = separator === ',' && cells.length !== headerCells.length && hasSplitAmount(cells, setting);
  if (!isTooLong && !isSplit) return null;
  const cause = separator === ',' ? 'an amount with a comma such as 12,50' : 'a text with the separator in it';
  const says = `has ${isTooLong ? filled : cells.length} cells where the header has ${header.width}, as happens when ${cause} stands without quotation marks`;
  return { code: 'bad-row', says, expected: `${header.width} cells, such a cell in quotation marks`, spoils: 'row' };
}

/** As where two sheets were joined into one. */
function isSameRow(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((cell, i) => cell === b[i]);
}

/** Whether a cell of money and the one after it could be the two halves of an amount with a comma. */
function hasSplitAmount<Row extends { readonly place: SheetPlace }, Values, Extra>(
  cells: readonly string[],
  { description, header }: RowSetting<Row, Values, Extra>,
): boolean {
  return Object.values<Column<unknown>>(description.columns).some(({ header: name, isMoney }) => {
    const index = header.indexes.get(name);
    if (!isMoney || index === undefined) return false;
    return /^\D*\d+$/.test(cells[index] ?? '') && /^\d{1,3}\D*$/.test(cells[index + 1] ?? '');
  });
}

function describeBrokenQuotes(cells: readonly string[]): RowProblem {
  const lines = cells.join('').split('\n').length;
  const reach = lines === 1 ? '' : `, so that ${lines} lines run together`;
  return {
    code: 'bad-row',
    says: `a quotation mark is opened and not closed as it should be${reach}`,
    expected: 'quotation marks around a whole cell, and doubled inside it',
    spoils: 'row',
  };
}
