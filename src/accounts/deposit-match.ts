import type { Finding } from '../findings/index.js';
import type { Interval } from '../interval/index.js';
import type { Count, DepositRow, LocalDate, LocalDateTime, Minor } from '../model/index.js';
import type { FeeShare } from './fee-share.js';

/**
 * `matched`: to the cent. `differing`: the amount is known. `missing`: card sales whose deposit should be there. `extra`: a
 * deposit without card sales, or without a machine. `open`: its counterpart is not due yet, or lies outside of what the sheet
 * or the reads cover. `unclear`: it cannot be told; the reason says why.
 */
export type DepositState = 'matched' | 'differing' | 'missing' | 'extra' | 'open' | 'unclear';

/** Why a state is what it is, where that needs saying. */
export type DepositReason =
  /** Only the sums fit: which deposit pays for which sales is not told. */
  | 'in-total'
  /** More than one reading is equally good. */
  | 'equally-good'
  /** The card sales are not known. */
  | 'sales-not-known'
  /** They are the least they can have been. */
  | 'sales-floor'
  /** The card counters hold cash sales too. */
  | 'cash-as-card'
  /** Reads and deposits do not begin and end together, and the difference may lie at these edges. */
  | 'edges'
  | 'no-time'
  | 'unknown-machine'
  | 'unknown-device'
  | 'two-machines'
  | 'other-currency'
  /** The processor took money back. */
  | 'taken-back'
  /** Not due yet, or before the sheet begins. */
  | 'not-due'
  | 'before-sheet'
  /** May pay for sales before the first read, or after the last. */
  | 'outside-reads';

/** Card sales of one machine that stand against deposits, or one without the other. Amounts in minor units; null is not known. */
export interface DepositMatch {
  /** The operator's name of the machine, else what the machine calls itself; null for a deposit without a machine. */
  readonly machine: string | null;
  readonly location: string | null;
  /** Serial number of the card device, where sales and deposits are of that one alone. */
  readonly device: string | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** The reads that the sales were counted between. */
  readonly from: LocalDateTime | null;
  readonly to: LocalDateTime | null;
  /** ΔDA2 and ΔDB2, or the one of them; null also where there are no sales. */
  readonly sales: Minor | null;
  /** The true figure may be higher. */
  readonly salesIsFloor: boolean;
  readonly gross: Minor | null;
  readonly fees: Minor | null;
  readonly net: Minor | null;
  readonly fee: FeeShare | null;
  /** Gross less sales. */
  readonly difference: Minor | null;
  /** Whether the difference is at least this, to whichever side. */
  readonly isAtLeast: boolean;
  readonly state: DepositState;
  readonly reason: DepositReason | null;
  readonly intervals: readonly Interval[];
  readonly deposits: readonly DepositRow[];
  readonly findings: readonly Finding[];
}

/** Sums over the deposits of one currency. */
export interface DepositTotals {
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly deposits: Count;
  readonly gross: Minor | null;
  /** Fees and net of the deposits whose figures are given and add up: `fee.gross` is theirs. */
  readonly fees: Minor | null;
  readonly net: Minor | null;
  readonly fee: FeeShare | null;
  /** Deposits that are in no fee sum. */
  readonly withoutFees: Count;
  /** Card sales by the state of what stands against them. */
  readonly sales: Readonly<Record<DepositState, Minor | null>>;
}

/** All matches, machine by machine in order of time; deposits without a machine last. */
export interface DepositMatches {
  readonly matches: readonly DepositMatch[];
  readonly totals: readonly DepositTotals[];
}

/** Options of `matchDeposits`. */
export interface DepositOptions {
  /** How many days after the sales a deposit may come. Default {@link DEPOSIT_WINDOW_DAYS}. */
  readonly windowDays?: number;
  /** When the processor's day ends, `HH:MM`. Default: at midnight. */
  readonly dayEndsAt?: string;
  /** First and last day between which the sheet has all deposits. Default: the days of its first and last one. */
  readonly completeFrom?: LocalDate;
  readonly completeTo?: LocalDate;
}

/** Processors pay out a day or a few after the sales (common practice). */
export const DEPOSIT_WINDOW_DAYS = 3;
