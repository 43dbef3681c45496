import type { Interval } from '../interval/index.js';
import { add, type Minor } from '../model/index.js';

/** What was sold between two reads, for cash and by card. Null is not known, never 0. */
export interface SalesByPayment {
  readonly cash: Minor | null;
  readonly card: Minor | null;
  /** Cash and card together: what commission is taken from (SEM 9900X manual, French edition, p. 18). */
  readonly both: Minor | null;
  /** The true figures may be higher. */
  readonly isFloor: boolean;
  /** The card counters hold the cash sales too, so that only the sum of both tells anything. */
  readonly isCashBookedAsCard: boolean;
}

/**
 * The sales of an interval by how they were paid: ΔCA2, and ΔDA2 with ΔDB2. A counter that is in neither read counts as 0
 * only where that is known: no cash counter on a machine that takes no cash by the roster; no card counter unless the roster
 * says that there is a reader. Vend tokens are in neither.
 */
export function salesByPayment({ cash, differences, to }: Interval): SalesByPayment {
  const { cashSales, cardSales1, cardSales2 } = differences;
  const hasCards = [cardSales1, cardSales2].some(({ why }) => why !== 'absent');
  const isCashless = cashSales.why === 'absent' && to.machine?.hasCash === false;
  const cashAmount = isCashless ? 0 : cash.cashSales;
  const cardAmount = hasCards || to.machine?.hasCard === true ? cash.cardSales : 0;
  return {
    cash: cashAmount,
    card: cardAmount,
    both: add(cashAmount, cardAmount),
    isFloor: [cashSales, cardSales1, cardSales2].some(({ floor }) => floor),
    isCashBookedAsCard: cash.isCashBookedAsCard,
  };
}
