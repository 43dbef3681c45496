import type { Count, Minor } from '../../model/index.js';
import type { MoneyUnit } from '../../report/text/words.js';
import type { Settlement } from '../../settlement/index.js';

/** How a settlement was closed: the entry of the book that records it. */
export interface Closing {
  /** Number of the entry, from 0. */
  readonly entry: number;
  /** An instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
  /** Who closed it; null where nobody said. */
  readonly by: string | null;
  /** The book as it stood with that entry: number of entries, and the root of their tree in hex. */
  readonly size: number;
  readonly root: string;
}

/** What other pages say of a settlement. */
export interface SettlementLine extends MoneyUnit {
  /** File name of its sheet. */
  readonly page: string;
  readonly route: string | null;
  /** Over (above 0) or short over the settled visits; null is not known. */
  readonly overShort: Minor | null;
  readonly settledVisits: Count;
  readonly openVisits: Count;
  readonly closing: Closing | null;
}

/** What other pages say of a settlement. */
export function outlineSettlement(settlement: Settlement, page: string, closing: Closing | null): SettlementLine {
  const { route, currency, decimals, totals } = settlement;
  const { overShort, settledVisits, openVisits } = totals;
  return { page, route, overShort: overShort.total, settledVisits, openVisits, currency, decimals, closing };
}
