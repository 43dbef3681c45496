import { largestOf, type Minor } from '../../model/index.js';
import { padText, textWidth } from './text-width.js';
import { amountCell, type MoneyUnit, signedCell } from './words.js';

/** One line of an account: its name, its amount, and whether its sign matters. */
export type FigureLine = readonly [name: string, amount: Minor | null, kind?: 'signed'];

/** Amounts below each other, aligned at their last digit. */
export function layFigures(lines: readonly FigureLine[], unit: MoneyUnit, indent = '  '): string[] {
  const cells = lines.map(([name, amount, kind]) => ({
    name,
    cell: kind === 'signed' ? signedCell(amount, unit) : amountCell(amount, unit),
  }));
  const names = largestOf(cells.map(({ name }) => textWidth(name)));
  const amounts = largestOf(cells.map(({ cell }) => textWidth(cell)));
  return cells.map(({ name, cell }) => `${indent}${padText(name, names)}  ${padText(cell, amounts, 'right')}`);
}
