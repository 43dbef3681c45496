import { printable } from '../../findings/index.js';
import { largestOf } from '../../model/index.js';
import type { Style } from './style.js';
import { cutText, padText, textWidth } from './text-width.js';
import { LINE_WIDTH } from './wrap-text.js';

/** One column of a table. */
export interface TableColumn {
  readonly head: string;
  readonly align?: 'left' | 'right';
  /** Whether its cells may be cut when the table would be too wide. Numbers never are. */
  readonly mayCut?: boolean;
}

const GAP = '  ';
const NARROWEST = 6;
const LONGEST_CELL = 200;

/**
 * Lay rows out under their heads, columns aligned. Cells are made safe to show. Where the lines would be longer than a
 * terminal, the columns that may be cut give way, the widest first.
 *
 * @param footer - a last row, such as totals, set apart by a rule
 */
export function layTable(
  columns: readonly TableColumn[],
  rows: readonly (readonly string[])[],
  style: Style,
  { indent = '', footer = null }: { indent?: string; footer?: readonly string[] | null } = {},
): string[] {
  const clean = (row: readonly string[]): string[] => row.map((cell) => printable(cell, LONGEST_CELL));
  const heads = columns.map(({ head }) => head);
  const body = rows.map(clean);
  const foot = footer === null ? [] : [clean(footer)];
  const widths = fitWidths(columns, [heads, ...body, ...foot], LINE_WIDTH - indent.length);
  const lay = (row: readonly string[]): string =>
    indent +
    columns
      .map(({ align }, i) => padText(cutText(row[i]!, widths[i]!), widths[i]!, align))
      .join(GAP)
      .trimEnd();
  const rule = indent + widths.map((width) => '-'.repeat(width)).join(GAP);
  return [style.dim(lay(heads)), ...body.map(lay), ...(foot.length === 0 ? [] : [style.dim(rule), ...foot.map(lay)])];
}

function fitWidths(columns: readonly TableColumn[], rows: readonly (readonly string[])[], limit: number): number[] {
  const widths = columns.map((_, i) => largestOf(rows.map((row) => textWidth(row[i]!))));
  const total = (): number => widths.reduce((sum, width) => sum + width, GAP.length * (columns.length - 1));
  while (total() > limit) {
    const cuttable = columns.flatMap(({ mayCut }, i) => (mayCut === true && widths[i]! > NARROWEST ? [i] : []));
    if (cuttable.length === 0) break;
    const widest = cuttable.reduce((a, b) => (widths[b]! > widths[a]! ? b : a));
    widths[widest]!--;
  }
  return widths;
}
