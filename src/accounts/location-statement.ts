import type { Finding } from '../findings/index.js';
import type { Interval } from '../interval/index.js';
import type { LocalDate, LocalDateTime, MachineRow, Minor } from '../model/index.js';
import type { RoundedAmount } from './round-half-even.js';

/** A figure of a statement. */
export type StatementFigure = 'cashSales' | 'cardSales' | 'gross' | 'tax' | 'net' | 'taxOnTop' | 'base' | 'commission';

/** One machine on a statement. Amounts in minor units; null is not known, never 0. */
export interface StatementLine {
  /** The roster's row: its rates are the ones that were used. */
  readonly machine: MachineRow;
  /** The first and the last read that its sales were counted between; null when there are not two. */
  readonly from: LocalDateTime | null;
  readonly to: LocalDateTime | null;
  readonly cashSales: Minor | null;
  readonly cardSales: Minor | null;
  readonly sales: Minor | null;
  /** Whether the true figure may be higher. */
  readonly floors: Readonly<Record<'cashSales' | 'cardSales' | 'sales', boolean>>;
  /** The card counters hold cash sales too, or may, so that cash and card sales are an estimate. */
  readonly isCashBookedAsCard: boolean;
  /** Cash sales that the card counters hold: stated as cash sales, not as card sales. */
  readonly cashInside: Minor | null;
  readonly intervals: readonly Interval[];
}

/**
 * What one location sold, the sales tax contained, and its commission: exact until the very end, rounded once for the whole
 * statement. Amounts in minor units of one currency; null is not known, never 0.
 */
export interface LocationStatement {
  /** Null for a machine that the roster gives no location: it has a statement to itself. */
  readonly location: string | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly from: LocalDateTime | null;
  readonly to: LocalDateTime | null;
  readonly lines: readonly StatementLine[];
  readonly cashSales: Minor | null;
  readonly cardSales: Minor | null;
  /** Cash and card sales together, at the prices customers paid. */
  readonly gross: Minor | null;
  /** Contained in gross; null also where no rate is stated. */
  readonly tax: RoundedAmount | null;
  /** Gross less the tax as rounded, so that the two add up. */
  readonly net: Minor | null;
  /** On sales whose prices do not contain the tax: it comes on top of gross, and is in no other figure. */
  readonly taxOnTop: RoundedAmount | null;
  /** What the commission is taken of: gross or net of the machines that pay one. */
  readonly base: RoundedAmount | null;
  readonly commission: RoundedAmount | null;
  /** Which figures are the least they can have been. */
  readonly floors: Readonly<Record<StatementFigure, boolean>>;
  readonly findings: readonly Finding[];
}

/** Which intervals a statement covers. */
export interface StatementPeriod {
  /**
   * First and last day: an interval belongs to the period in which its later read was taken, so that of two periods that
   * follow each other none of the sales is in both or in neither. Default: all.
   */
  readonly from?: LocalDate;
  readonly to?: LocalDate;
}
