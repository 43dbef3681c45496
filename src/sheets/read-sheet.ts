import { type Finding, type FindingCode, makeFinding } from '../findings/index.js';
import type { SheetPlace } from '../model/index.js';
import { type NumberMarks, observeMarks } from './amount-shape.js';
import { ColumnShapes } from './column-shapes.js';
import type { Column } from './columns.js';
import { decodeText } from './decode-text.js';
import type { ReadRow, SheetDescription } from './describe-sheet.js';
import { type HeaderMatch, matchHeader, normaliseHeader } from './match-header.js';
import type { MoneyRules } from './money-rules.js';
import { splitAmount } from './parse-amount.js';
import { type RowSetting, readRow } from './read-row.js';
import type { RefusedRow, Sheet, SheetReading } from './sheet.js';
import { listNames, nameFile, type PlacedProblem, writeRowFinding } from './sheet-findings.js';
import { type SplitSheet, splitCells } from './split-cells.js';

type AnyRow = { readonly place: SheetPlace };

const SEPARATOR_PHRASES = { ',': null, ';': 'cells separated by semicolons', '\t': 'cells separated by tabs' } as const;

/**
 * Read an office sheet by its description: bytes or text to typed rows and findings. Bad rows and cells are reported and
 * good rows still count; nothing a sheet holds is thrown.
 *
 * @param money - decimals and currency of the machines, for sheets with amounts
 * @returns rows in the sheet's order; none when the sheet cannot be read or lacks a column it must have
 */
export function readSheet<Row extends AnyRow, Values, Extra>(
  sheet: Sheet,
  description: SheetDescription<Row, Values, Extra>,
  money: MoneyRules,
): SheetReading<Row> {
  const decoded = decodeText(sheet.content);
  if (decoded.text === null) return refuseSheet(sheet, 'sheet-unreadable', decoded.problem);
  const known = new Set(listColumns(description).map(({ header }) => header));
  const readExtra = (header: string): Extra | null => description.readExtra?.(header) ?? null;
  const split = splitCells(decoded.text, (name) => known.has(normaliseHeader(name)) || readExtra(name) !== null);
  const header = matchHeader(split.header, known, readExtra);
  const refused = checkHeader(sheet, description, split, header);
  if (refused !== null) return refused;
  const taken = new Set([decoded.coding, SEPARATOR_PHRASES[split.separator]].filter((phrase) => phrase !== null));
  const setting: RowSetting<Row, Values, Extra> = {
    file: sheet.file,
    description,
    shapes: new ColumnShapes(description.columns as Readonly<Record<string, Column<unknown>>>),
    header,
    headerCells: split.header.cells,
    separator: split.separator,
    marks: collectMarks(split, header, description),
    taken,
    money,
  };
  return readRows(sheet.file, split, setting);
}

function listColumns<Row extends AnyRow, Values, Extra>(
  description: SheetDescription<Row, Values, Extra>,
): Column<unknown>[] {
  return Object.values<Column<unknown>>(description.columns);
}

function refuseSheet(
  { file }: Sheet,
  code: FindingCode,
  says: string,
  detail: Partial<Finding> = {},
): SheetReading<never> {
  const message = `${nameFile(file)} ${says}. No row of it is used.`;
  return { rows: [], findings: [makeFinding(code, message, { file, ...detail })] };
}

/** A refusal of the whole sheet, or null when its header will do. */
function checkHeader<Row extends AnyRow, Values, Extra>(
  sheet: Sheet,
  description: SheetDescription<Row, Values, Extra>,
  { header: { cells, row }, rows }: SplitSheet,
  { indexes, extras, repeated }: HeaderMatch<Extra>,
): SheetReading<never> | null {
  if (cells.length === 0) return refuseSheet(sheet, 'sheet-unreadable', 'is empty');
  const names = new Set(indexes.keys());
  const mandatory = listColumns(description).filter((column) => column.isMandatory && !names.has(column.header));
  const missing = mandatory.map(({ header }) => header);
  const alsoMissing = description.findMissing?.(names, extras) ?? null;
  if (alsoMissing !== null) missing.push(alsoMissing);
  if (missing.length > 0) {
    const says = `lacks what a ${description.name} sheet must have, column ${missing.join(', column ')}; its columns are ${listNames(cells)}`;
    return refuseSheet(sheet, 'sheet-column-missing', says, {
      row,
      expected: missing.join(', '),
      received: listNames(cells),
    });
  }
  if (repeated.length > 0) {
    const says = `names a column twice, so that it is not clear which one counts: ${listNames(repeated)}`;
    return refuseSheet(sheet, 'sheet-column-repeated', says, { row, field: repeated[0]! });
  }
  return rows.length === 0 ? refuseSheet(sheet, 'sheet-empty', 'has a header and no rows under it') : null;
}

/** What the amounts of a sheet prove about its number marks, those in its header included. */
function collectMarks<Row extends AnyRow, Values, Extra>(
  { rows }: SplitSheet,
  { indexes, extras }: HeaderMatch<Extra>,
  description: SheetDescription<Row, Values, Extra>,
): NumberMarks {
  const marks: NumberMarks = { decimal: new Set(), grouping: new Set() };
  const observe = (text: string): void => {
    const amount = splitAmount(text);
    if (amount !== null) observeMarks(amount.shape, marks);
  };
  for (const { extra } of extras) observe(description.amountOfExtra!(extra));
  for (const { header, isMoney } of listColumns(description)) {
    const index = indexes.get(header);
    if (isMoney && index !== undefined) for (const { cells } of rows) observe(cells[index] ?? '');
  }
  return marks;
}

function readRows<Row extends AnyRow, Values, Extra>(
  file: string,
  split: SplitSheet,
  setting: RowSetting<Row, Values, Extra>,
): SheetReading<Row> {
  const placed: PlacedProblem[] = [];
  const read: ReadRow<Row>[] = [];
  const refused: RefusedRow[] = [];
  const machines = new Map<number, string | null>();
  for (const record of split.rows) {
    const reading = readRow(record, setting);
    machines.set(record.row, reading.machine);
    for (const problem of reading.problems) placed.push({ row: record.row, machine: reading.machine, problem });
    if (reading.read !== null) read.push(reading.read);
    else refused.push({ machine: reading.machine, values: reading.values, place: { file, row: record.row } });
  }
  const dropped = new Set<ReadRow<Row>>();
  for (const { about, problem } of setting.description.compareRows?.(read) ?? []) {
    const { row } = about.row.place;
    placed.push({ row, machine: machines.get(row)!, problem });
    if (problem.spoils === 'row') dropped.add(about);
  }
  const rows = read.filter((each) => !dropped.has(each)).map(({ row }) => row);
  const use = { total: split.rows.length, usedRows: new Set(rows.map(({ place }) => place.row)) };
  const rowFindings = placed.toSorted((a, b) => a.row - b.row).map((problem) => writeRowFinding(file, problem, use));
  const findings = [...describeSheet(file, split, setting), ...rowFindings];
  return refused.length === 0 ? { rows, findings } : { rows, findings, refused };
}

/** The notes about a sheet as a whole: how it was taken, and which columns were left aside. */
function describeSheet<Row extends AnyRow, Values, Extra>(
  file: string,
  { header: { row } }: SplitSheet,
  { taken, header: { unknown }, description }: RowSetting<Row, Values, Extra>,
): Finding[] {
  const notes: Finding[] = [];
  if (taken.size > 0) {
    notes.push(
      makeFinding('sheet-format', `${nameFile(file)} was taken as follows: ${[...taken].join('; ')}.`, { file }),
    );
  }
  if (unknown.length > 0) {
    const names = listNames(unknown);
    const expected = listColumns(description)
      .map(({ header }) => header)
      .join(', ');
    const message = `${nameFile(file)} has columns without a meaning in a ${description.name} sheet, which are left aside: ${names}.`;
    notes.push(makeFinding('sheet-column-unknown', message, { file, row, received: names, expected }));
  }
  return notes;
}
