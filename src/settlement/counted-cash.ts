import { addAll, type CountRow } from '../model/index.js';
import type { CashByKind } from './settlement.js';

/** No count at all. */
export const NOT_COUNTED: CashByKind = { coins: null, bills: null };

/** The bags' money; a kind is not known when any bag was not counted for it: the rest alone would be a wrong figure. */
export function sumCounted(rows: readonly CountRow[]): CashByKind {
  if (rows.length === 0) return NOT_COUNTED;
  return { coins: addAll(rows.map(({ coins }) => coins)), bills: addAll(rows.map(({ bills }) => bills)) };
}
