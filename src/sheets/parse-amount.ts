import { currencyByAlpha, formatMinor, type Minor } from '../model/index.js';
import { type AmountShape, decideTwofold, readShape } from './amount-shape.js';
import { type CellContext, type CellReading, quote, refuse, took } from './cell-reading.js';
import { currenciesOfMark } from './currency-mark.js';

/** An amount as written, its parts told apart. */
export interface WrittenAmount {
  readonly isNegative: boolean;
  /** Signs of a currency before and after the number, as written; most often none or one. */
  readonly currencyMarks: readonly string[];
  readonly shape: AmountShape;
}

/** What a parse depends on; see {@link CellContext}. */
export type NumberContext = Pick<CellContext, 'currency' | 'marks' | 'separator' | 'taken'>;

const GROUPING_PHRASES = {
  '.': 'points as thousands marks',
  ',': 'commas as thousands marks',
  space: 'spaces as thousands marks',
  apostrophe: 'apostrophes as thousands marks',
} as const;

/**
 * Take an amount as people write it apart: `12.50`, `€ 12,50`, `-1 250 EUR`, `(5.00)`. Brackets are a minus, as in
 * accounts.
 *
 * @param text - a cell, trimmed
 * @returns null when it is no amount; a mark beside the number is not looked up here
 */
export function splitAmount(text: string): WrittenAmount | null {
  const first = text.search(/\d/);
  if (first === -1) return null;
  let last = text.length - 1;
  while (!/\d/.test(text[last]!)) last--;
  // A decimal mark may come first (`.50`); after a letter it is the point of an abbreviation, and `kr.50` is unclear.
  const startsWithMark = /(^|[^\p{L}])[.,]$/u.test(text.slice(Math.max(0, first - 2), first));
  const start = startsWithMark ? first - 1 : first;
  const shape = readShape(text.slice(start, last + 1));
  if (shape === null) return null;
  const sides = readSides(text.slice(0, start), text.slice(last + 1));
  return sides === null ? null : { ...sides, shape };
}

/** Signs, brackets and currency marks around a number. */
function readSides(before: string, after: string): Pick<WrittenAmount, 'isNegative' | 'currencyMarks'> | null {
  const signs = (before + after).match(/[-\u2212+]/g) ?? [];
  const brackets = (before + after).match(/[()]/g) ?? [];
  const isBracketed = brackets.length === 2 && before.includes('(') && after.includes(')');
  if (signs.length + (isBracketed ? 1 : 0) > 1 || (brackets.length > 0 && !isBracketed)) return null;
  // Right against the number a point would have been taken for a decimal mark.
  if (/[.,]$/.test(before)) return null;
  const currencyMarks = [before, after]
    .map((side) => side.replace(/[-\u2212+()]/g, '').trim())
    .filter((mark) => mark !== '');
  return { isNegative: isBracketed || (signs.length === 1 && signs[0] !== '+'), currencyMarks };
}

/**
 * Read an amount of money: exactly, from text to minor units, never through a fraction.
 *
 * @param text - a cell, trimmed and not empty
 * @param decimals - decimals of the currency; more than these are refused, not rounded
 * @returns minor units, which may be below zero; refused as `ambiguous-number` when it can be read in two ways
 * @example parseAmount('€ 1.234,50', 2, context) // { value: 123450 }
 */
export function parseAmount(text: string, decimals: number, context: NumberContext): CellReading<Minor> {
  const expected = `an amount such as ${formatMinor(1250, decimals)}`;
  const amount = splitAmount(text);
  if (amount === null) return refuse(`${quote(text)} is no amount`, expected);
  for (const mark of amount.currencyMarks) {
    const problem = describeCurrencyProblem(mark, decimals, context.currency);
    if (problem !== null) return refuse(`${quote(text)} ${problem}`, expected);
  }
  if (amount.currencyMarks.length > 0) context.taken.add('signs of the currency beside amounts');
  return readNumber(text, amount, decimals, context, expected);
}

function describeCurrencyProblem(mark: string, decimals: number, currency: string | null): string | null {
  const named = currenciesOfMark(mark);
  if (named === null) return 'is no amount';
  if (currency !== null) return named.includes(currency) ? null : `is not in ${currency}, the currency of the machine`;
  const canFit = named.some((code) => currencyByAlpha(code)?.decimals === decimals);
  return canFit
    ? null
    : `names a currency that does not have ${decimals} decimals, as this machine's money is taken to have`;
}

/**
 * Read a number of pieces, 0 or more: whole, with or without thousands marks.
 *
 * @param text - a cell, trimmed and not empty
 */
export function parsePieces(text: string, context: NumberContext): CellReading<number> {
  const expected = 'a whole number of 0 or more';
  const amount = splitAmount(text);
  if (amount === null || amount.currencyMarks.length > 0) return refuse(`${quote(text)} is no number`, expected);
  if (amount.isNegative) return refuse(`${quote(text)} is below zero`, expected);
  if (amount.shape.fraction !== '') return refuse(`${quote(text)} is no whole number`, expected);
  return readNumber(text, amount, 0, context, expected);
}

function readNumber(
  text: string,
  { shape, isNegative }: WrittenAmount,
  decimals: number,
  context: NumberContext,
  expected: string,
): CellReading<number> {
  const settled = settleTwofold(shape, decimals, context);
  if (settled === null) {
    const asGrouped = shape.whole;
    const asDecimal = `${shape.whole.slice(0, -3)}.${shape.whole.slice(-3)}`;
    const says = `${quote(text)} can be read as ${asGrouped} and as ${asDecimal}`;
    return refuse(says, `${expected}, without thousands marks`, 'ambiguous-number');
  }
  const { whole, fraction, decimal, grouping } = settled;
  if (fraction.length > decimals) {
    return refuse(`${quote(text)} has more decimals than the currency, which has ${decimals}`, expected);
  }
  const value = Number(whole + fraction.padEnd(decimals, '0'));
  if (!Number.isSafeInteger(value)) return refuse(`${quote(text)} has too many digits`, expected);
  if (decimal === ',') context.taken.add('commas before decimals');
  if (grouping !== null) context.taken.add(GROUPING_PHRASES[grouping]);
  // `0 -` keeps -0 out, which JSON and equality tell from 0.
  return took(isNegative ? 0 - value : value);
}

function settleTwofold(shape: AmountShape, decimals: number, context: NumberContext): AmountShape | null {
  if (shape.twofold === null) return shape;
  const decision = decideTwofold(shape.twofold, context.marks, decimals, context.separator);
  if (decision !== 'decimal') return decision === null ? null : shape;
  const { whole, twofold } = shape;
  return { whole: whole.slice(0, -3), fraction: whole.slice(-3), decimal: twofold, grouping: null, twofold: null };
}
