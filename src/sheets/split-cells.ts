import Papa from 'papaparse';

/** What stands between the cells of a sheet. */
export type Separator = ',' | ';' | '\t';

/** One row of a sheet as text. */
export interface CellRow {
  /** From 1, the header most often being row 1, as a spreadsheet counts: line breaks inside a cell count for nothing. */
  readonly row: number;
  /** Trimmed. */
  readonly cells: readonly string[];
  /** Set when quotation marks do not close as they should, so that cells or whole lines may have run together. */
  readonly hasBrokenQuotes: boolean;
}

/** A sheet taken apart; blank rows are left out. */
export interface SplitSheet {
  readonly header: CellRow;
  readonly rows: readonly CellRow[];
  readonly separator: Separator;
}

const SEPARATORS: readonly Separator[] = [',', ';', '\t'];
/** Enough for any header. */
const HEADER_CHARACTERS = 65_536;
const SEPARATOR_LINE = /^"?sep=([,;\t])"?\n/i;

/**
 * Take the text of a sheet apart into rows of cells: CSV as RFC 4180 has it (quotation marks, doubled inside), with any
 * line ending, separated by comma, semicolon or tab. The separator is the one that makes most known names of the header,
 * then the most cells. A first line `sep=;`, which spreadsheets understand, is no row and decides.
 *
 * @param text - not blank
 * @param isKnown - whether a cell of the header is the name of a column
 */
export function splitCells(text: string, isKnown: (name: string) => boolean): SplitSheet {
  const lines = text.replace(/\r\n?/g, '\n');
  const declared = SEPARATOR_LINE.exec(lines);
  const body = declared === null ? lines : lines.slice(declared[0].length);
  const separator = (declared?.[1] as Separator | undefined) ?? detectSeparator(body, isKnown);
  const [header = { row: 1, cells: [], hasBrokenQuotes: false }, ...rows] = readRows(body, separator);
  return { header, rows, separator };
}

function detectSeparator(body: string, isKnown: (name: string) => boolean): Separator {
  const start = body.slice(0, HEADER_CHARACTERS);
  const scores = SEPARATORS.map((separator) => {
    const cells = readRows(start, separator)[0]?.cells ?? [];
    return { separator, known: cells.filter(isKnown).length, cells: cells.length };
  });
  return scores.sort((a, b) => b.known - a.known || b.cells - a.cells)[0]!.separator;
}

function readRows(text: string, delimiter: Separator): CellRow[] {
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, newline: '\n', skipEmptyLines: false });
  const broken = new Set(errors.map((error) => error.row));
  return data
    .map((cells, i) => ({ row: i + 1, cells: cells.map((cell) => cell.trim()), hasBrokenQuotes: broken.has(i) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
}
