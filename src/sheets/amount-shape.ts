/** A mark that some write before decimals and others between thousands. */
export type TwofoldMark = '.' | ',';
/** What stands between thousands. */
export type GroupingMark = TwofoldMark | 'space' | 'apostrophe';

/** The digits of a number and what its marks are for. */
export interface AmountShape {
  /** Digits before the decimals; may be empty (`.50`). */
  readonly whole: string;
  /** Decimals; empty when there are none. */
  readonly fraction: string;
  readonly decimal: TwofoldMark | null;
  readonly grouping: GroupingMark | null;
  /** Set when the only mark can be either: `1,250`. The digits are then given as if it stood between thousands. */
  readonly twofold: TwofoldMark | null;
}

/** What the amounts of a sheet prove about its marks. */
export interface NumberMarks {
  readonly decimal: Set<TwofoldMark>;
  readonly grouping: Set<TwofoldMark>;
}

// A number grouped by thousands begins with one to three digits, not with 0, and has three in each further group.
const GROUPED: readonly (readonly [GroupingMark, RegExp])[] = [
  ['space', /^([1-9]\d{0,2}(?:[ \u00a0\u2009\u202f]\d{3})+)(?:([.,])(\d+))?$/],
  ['apostrophe', /^([1-9]\d{0,2}(?:['\u2019]\d{3})+)(?:([.,])(\d+))?$/],
  ['.', /^([1-9]\d{0,2}(?:\.\d{3})+)(?:(,)(\d+))?$/],
  [',', /^([1-9]\d{0,2}(?:,\d{3})+)(?:(\.)(\d+))?$/],
];
const UNGROUPED = /^(\d*)([.,])(\d+)$|^(\d+)$/;
const ONE_GROUP = /^\d{1,3}[.,]\d{3}$/;

/**
 * Take the digits and marks of a number apart, without sign and currency. Spaces include no-break and thin ones.
 *
 * @returns null when the text is no such number
 * @example readShape('1.234,50') // { whole: '1234', fraction: '50', decimal: ',', grouping: '.', twofold: null }
 */
export function readShape(text: string): AmountShape | null {
  for (const [grouping, pattern] of GROUPED) {
    const match = pattern.exec(text);
    if (match === null) continue;
    const twofold = ONE_GROUP.test(text) ? (grouping as TwofoldMark) : null;
    const decimal = (match[2] as TwofoldMark | undefined) ?? null;
    return { whole: match[1]!.replace(/\D/g, ''), fraction: match[3] ?? '', decimal, grouping, twofold };
  }
  const match = UNGROUPED.exec(text);
  if (match === null) return null;
  if (match[4] !== undefined) return { whole: match[4], fraction: '', decimal: null, grouping: null, twofold: null };
  return { whole: match[1]!, fraction: match[3]!, decimal: match[2] as TwofoldMark, grouping: null, twofold: null };
}

/** Note what one number proves about the marks of its sheet. A twofold one proves nothing. */
export function observeMarks(shape: AmountShape, marks: NumberMarks): void {
  if (shape.twofold !== null) return;
  if (shape.decimal !== null) marks.decimal.add(shape.decimal);
  if (shape.grouping === '.' || shape.grouping === ',') marks.grouping.add(shape.grouping);
}

/**
 * Decide what a twofold mark is for, or that it cannot be known.
 *
 * Where the sheet's other amounts decide, they do; but a mark proved to stand before decimals is not taken so when the
 * currency has less than three of them, since either the decimals or the proof is wrong. Where nothing decides, three
 * digits cannot be the decimals of a currency with fewer. Even then the mark is not taken as a thousands mark where the
 * sheet's separator speaks for it as decimal mark (the comma in a `;` sheet, the point in a `,` sheet), unless the
 * currency has no decimals at all: people also write 1.250 for 1.25.
 *
 * @returns null when both readings stand
 */
export function decideTwofold(
  mark: TwofoldMark,
  marks: NumberMarks,
  decimals: number,
  separator: string,
): 'decimal' | 'grouping' | null {
  const other = mark === '.' ? ',' : '.';
  const isDecimal = marks.decimal.has(mark) || marks.grouping.has(other);
  const isGrouping = marks.grouping.has(mark) || marks.decimal.has(other);
  if (isDecimal && isGrouping) return null;
  if (isGrouping) return 'grouping';
  if (isDecimal) return decimals >= 3 ? 'decimal' : null;
  if (decimals >= 3) return null;
  const usualDecimalMark = separator === ';' ? ',' : '.';
  return decimals > 0 && (separator === '\t' || mark === usualDecimalMark) ? null : 'grouping';
}
