import type { Finding } from '../../findings/index.js';
import type { CountRow, UnusableCount } from '../../model/index.js';
import type { MoneyRules } from '../../sheets/index.js';

/** A count sheet as it was read. */
export interface CountSheet {
  readonly rows: readonly CountRow[];
  /** Its rows that could not be used. Default: none. */
  readonly unusable?: readonly UnusableCount[];
  readonly findings: readonly Finding[];
  /** In which money its amounts were read. */
  readonly money: MoneyRules;
}
