import type { Interval } from '../interval/index.js';
import { add, type Minor } from '../model/index.js';
import { measureCardSales } from './card-sales.js';

/** What was sold between two reads, for cash and by card. Null is not known, never 0. */
export interface SalesByPayment {
  /** With cash sales that the machine booked as card sales, as far as these are known. */
  readonly cash: Minor | null;
  readonly card: Minor | null;
  /** Cash and card together: what commission is taken from (SEM 9900X manual, French edition, p. 18). */
  readonly both: Minor | null;
  /** Whether the true figure may be higher. */
  readonly floors: { readonly cash: boolean; readonly card: boolean; readonly both: boolean };
  /** The card counters hold cash sales too, or may: then the parts are an estimate, and only the sum of both is not. */
  readonly isCashBookedAsCard: boolean;
  /** Cash sales that the card counters hold: they are in `cash`, not in `card`. */
  readonly cashInside: Minor | null;
}

/**
 * The sales of an interval by how they were paid: ΔCA2, and ΔDA2 with ΔDB2, as deposits are held against. A cash counter that
 * is in neither read counts as 0 only on a machine that takes no cash by the roster. Vend tokens are in neither.
 */
export function salesByPayment(interval: Interval): SalesByPayment {
  const { cash, differences, to } = interval;
  const { cashSales, cashIn } = differences;
  const isCashless = cashSales.why === 'absent' && to.machine?.hasCash === false;
  const counted = isCashless ? 0 : cash.cashSales;
  const { amount: card, cashInside, isFloor, isCashBookedAsCard } = measureCardSales(interval, 'both', false);
  const isCashFloor = cashSales.floor || (isCashBookedAsCard && (isFloor || cashIn.floor));
  return {
    cash: add(counted, cashInside),
    card,
    // Where the parts cannot be told, the counters still tell their sum.
    both: add(counted, isCashBookedAsCard ? cash.cardSales : card),
    floors: { cash: isCashFloor, card: isFloor, both: cashSales.floor || isFloor },
    isCashBookedAsCard,
    cashInside,
  };
}
