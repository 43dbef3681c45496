import type { Count, Minor } from '../../model/index.js';
import type { ClosingJson } from '../../report/shapes/closing.js';
import type { MoneyUnit } from '../../report/text/words.js';
import type { Settlement } from '../../settlement/index.js';

/** A settled round, and what the book says of its closing. */
export interface SheetRound {
  /** Of a closed one: as it was closed. */
  readonly settlement: Settlement;
  /** Null where there is no book. */
  readonly closing: ClosingJson | null;
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
  /** Number of the entry by which it was closed; null while it is open. */
  readonly closedBy: number | null;
  /** Whether it would not come out as it was closed any more. */
  readonly isChangedSince: boolean;
}

/** What other pages say of a settlement. */
export function outlineSettlement({ settlement, closing }: SheetRound, page: string): SettlementLine {
  const { route, currency, decimals, totals } = settlement;
  const { overShort, settledVisits, openVisits } = totals;
  return {
    page,
    route,
    overShort: overShort.total,
    settledVisits,
    openVisits,
    currency,
    decimals,
    closedBy: closing?.closed?.entry ?? null,
    isChangedSince: closing !== null && (closing.changes !== null || closing.adjustments.length > 0),
  };
}
