import { add, type Count, formatMinor, type Minor, multiply, noteRange } from '../model/index.js';
import { type CellContext, quote } from './cell-reading.js';
import { currenciesOfMark } from './currency-mark.js';
import type { ExtraCell, RowProblem } from './describe-sheet.js';
import { parseAmount, parsePieces, splitAmount } from './parse-amount.js';

/** A column for the pieces of one denomination: `0.50`, `coin_0.50`, `bill_20`. */
export interface Denomination {
  /** What the header says it is; null when it does not say. */
  readonly kind: 'coins' | 'bills' | null;
  /** Its value as the header writes it. */
  readonly amount: string;
}

/** What the pieces of one bag come to, in minor units; null where no piece of that kind is given. */
export interface PieceSums {
  readonly coins: Minor | null;
  readonly bills: Minor | null;
  /** Pieces that may be either. */
  readonly undecided: Minor | null;
}

/** The pieces of one bag. */
export interface Pieces {
  /** Value in minor units to number of pieces, coins and bills of one value together. */
  readonly counts: ReadonlyMap<Minor, Count>;
  readonly sums: PieceSums;
  /** Each of these takes the row out. */
  readonly problems: readonly RowProblem[];
}

const HEADER = /^(?:(coin|bill)[\s_-]+)?(.*)$/i;

/** A denomination from the header of its column, or null when the header names none. */
export function readDenomination(header: string): Denomination | null {
  const [, kind, rest = ''] = HEADER.exec(header.trim()) ?? [];
  const amount = splitAmount(rest);
  if (amount === null || amount.isNegative || !/[1-9]/.test(rest)) return null;
  if (amount.currencyMarks.some((mark) => currenciesOfMark(mark) === null)) return null;
  const kinds = { coin: 'coins', bill: 'bills' } as const;
  return { kind: kind === undefined ? null : kinds[kind.toLowerCase() as keyof typeof kinds], amount: rest };
}

/**
 * Count the pieces of one bag.
 *
 * A denomination whose header does not say what it is counts as bills from the smallest note of the currency up, and as
 * coins below it; where the notes are not known it stays undecided.
 */
export function countPieces(cells: readonly ExtraCell<Denomination>[], context: CellContext): Pieces {
  const counts = new Map<Minor, Count>();
  const sums = { coins: null as Minor | null, bills: null as Minor | null, undecided: null as Minor | null };
  const problems: RowProblem[] = [];
  const seen = new Set<string>();
  for (const cell of cells) {
    const piece = readPiece(cell, context);
    if ('says' in piece) {
      problems.push(piece);
      continue;
    }
    const { kind, value, count, sum } = piece;
    const total = add(sums[kind] ?? 0, sum);
    if (seen.has(`${kind} ${value}`) || total === null) {
      const says = total === null ? 'comes to more than can be kept exactly' : 'is a denomination with two columns';
      problems.push(spoilRow(cell, says, 'one count a denomination'));
      continue;
    }
    seen.add(`${kind} ${value}`);
    sums[kind] = total;
    counts.set(value, (counts.get(value) ?? 0) + count);
  }
  return { counts, sums, problems };
}

interface Piece {
  readonly kind: keyof PieceSums;
  readonly value: Minor;
  readonly count: Count;
  readonly sum: Minor | null;
}

function readPiece(cell: ExtraCell<Denomination>, context: CellContext): Piece | RowProblem {
  const { extra } = cell.column;
  if (context.decimals === null) {
    return spoilRow(
      cell,
      "cannot be valued, since the decimals of this machine's money are not known",
      'the machine with its currency or decimals in the roster',
    );
  }
  const value = parseAmount(extra.amount, context.decimals, context);
  if ('refusal' in value)
    return spoilRow(cell, `is in a column whose header cannot be read: ${value.refusal.says}`, value.refusal.expected);
  const count = parsePieces(cell.text, context);
  if ('refusal' in count) return { ...spoilRow(cell, '', count.refusal.expected), ...count.refusal };
  const kind = extra.kind ?? decideKind(value.value, context.decimals, context);
  return { kind, value: value.value, count: count.value, sum: multiply(count.value, value.value) };
}

function decideKind(value: Minor, decimals: number, { currency, taken }: CellContext): keyof PieceSums {
  const notes = noteRange(currency, decimals);
  if (notes === null) return 'undecided';
  const smallest = formatMinor(notes.smallest, decimals);
  taken.add(
    `denominations of ${smallest} ${currency} and more as bills, others as coins, where the header does not say`,
  );
  return value >= notes.smallest ? 'bills' : 'coins';
}

function spoilRow({ column, text }: ExtraCell<Denomination>, clause: string, expected: string): RowProblem {
  return {
    code: 'bad-cell',
    says: `${quote(text)} ${clause}`,
    expected,
    field: column.header,
    received: text,
    spoils: 'row',
  };
}
