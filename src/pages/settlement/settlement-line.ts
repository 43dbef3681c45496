import type { Count, Minor } from '../../model/index.js';
import type { BookFactsJson } from '../../report/shapes/closing.js';
import { isChanged } from '../../report/text/closing-text.js';
import type { MoneyUnit } from '../../report/text/words.js';
import type { Settlement } from '../../settlement/index.js';

/** A settled round, and what the book says of it. */
export interface SheetRound {
  /** As it stands. */
  readonly settlement: Settlement;
  /** Null where there is no book. */
  readonly inBook: BookFactsJson | null;
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
  /** Whether it does not stand as it was closed. */
  readonly isChangedSince: boolean;
}

/** What other pages say of a settlement. */
export function outlineSettlement({ settlement, inBook }: SheetRound, page: string): SettlementLine {
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
    closedBy: inBook?.closing?.entry ?? null,
    isChangedSince: inBook !== null && isChanged(inBook),
  };
}
