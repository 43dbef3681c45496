import type { FindingCode } from '../findings/index.js';
import { printable } from '../findings/index.js';
import type { NumberMarks } from './amount-shape.js';
import type { Separator } from './split-cells.js';

/** Why a cell could not be used: `says` and `expected` complete "…; expected …". */
export interface Refusal {
  readonly code: FindingCode;
  readonly says: string;
  readonly expected: string;
}

/** What a cell holds, or why that is not known. */
export type CellReading<T> = { readonly value: T } | { readonly refusal: Refusal };

/** What the meaning of a cell can depend on besides its text. */
export interface CellContext {
  /** The row's machine, as the sheet names it; null where the sheet does not. */
  readonly machine: string | null;
  /** Decimals of that machine's money; null when not known. */
  readonly decimals: number | null;
  /** ISO 4217 alphabetic code of that machine's money; null when not known. */
  readonly currency: string | null;
  /** Which number marks the sheet's other amounts prove. */
  readonly marks: NumberMarks;
  readonly separator: Separator;
  /** Phrases that say how cells were taken, for the sheet's one note on that. Parsers add to it. */
  readonly taken: Set<string>;
}

/** A value that was read. */
export function took<T>(value: T): { readonly value: T } {
  return { value };
}

/** A cell that could not be used, as a bad cell unless another code says it better. */
export function refuse(says: string, expected: string, code: FindingCode = 'bad-cell'): { readonly refusal: Refusal } {
  return { refusal: { code, says, expected } };
}

/** Outside text in quotation marks, shortened and with nothing hidden in it. */
export function quote(text: string): string {
  return `"${printable(text)}"`;
}
