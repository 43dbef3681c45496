import type { AdjustedRound, AttentionItem } from '../attention/index.js';
import type { Count, LocalDate, LocalDateTime, Minor } from '../model/index.js';
import type { Settlement } from '../settlement/index.js';

/** What a row of the day is about. */
export interface DayMachine {
  /** The operator's name; on no roster what the machine calls itself (`asset A1`). */
  readonly machine: string;
  readonly location: string | null;
  readonly route: string | null;
}

/** From when to when, by the time of either read: see `timeOfRead`. */
export interface Period {
  readonly from: LocalDateTime | null;
  readonly to: LocalDateTime | null;
  readonly currency: string | null;
  readonly decimals: number | null;
}

/**
 * What is to be minded of a column's sales. `floor`: the least it can have been. `restart`: counted since the counters
 * began again. `interval-counters`: there are no lifetime counters. `not-known`: a figure is missing. `new-column`,
 * `column-gone`: only one of the reads has it. `off-plan`: priced off plan, now or when sold. `price-changed`.
 * `unexplained`: money that no known price explains. `doubtful-capture`: one of the reads is of a capture in doubt.
 */
export type SalesFlag =
  | 'floor'
  | 'restart'
  | 'interval-counters'
  | 'doubtful-capture'
  | 'not-known'
  | 'new-column'
  | 'column-gone'
  | 'off-plan'
  | 'price-changed'
  | 'unexplained';

/** What a row of the day's tables takes the place of. */
export interface Replacing {
  /**
   * Days whose tables, as they were before a capture came late, have rows that told what this one tells: that capture has put
   * it otherwise. The row's own day where it takes the place of one of the same table. Mostly none; earliest first.
   */
  readonly replaces: readonly LocalDate[];
}

/** What one column sold from one read to the next. Money in minor units; null is not known, never 0. */
export interface DaySalesRow extends DayMachine, Period, Replacing {
  readonly column: string;
  readonly product: string | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly test: Count | null;
  readonly free: Count | null;
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  readonly pricePlan: Minor | null;
  readonly loss: Minor | null;
  readonly unexplained: Minor | null;
  readonly flags: readonly SalesFlag[];
}

/** What the cash of one machine did from one read to the next. Minor units; null is not known, never 0. */
export interface DayCashRow extends DayMachine, Period, Replacing {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly cashIn: Minor | null;
  readonly toCashBox: Minor | null;
  readonly toTubes: Minor | null;
  readonly bills: Minor | null;
  readonly dispensed: Minor | null;
  readonly byHand: Minor | null;
  readonly filled: Minor | null;
  readonly overpaid: Minor | null;
  readonly cashSales: Minor | null;
  readonly cardSales: Minor | null;
  readonly tokenSales: Minor | null;
  readonly credited: Minor | null;
  readonly tubesFrom: Minor | null;
  readonly tubesTo: Minor | null;
  readonly tubeDifference: Minor | null;
  readonly customerDifference: Minor | null;
  readonly flags: readonly CashFlag[];
}

/** `cash-as-card`: the machine books cash sales as card sales. The others as of {@link SalesFlag}. */
export type CashFlag = 'floor' | 'restart' | 'interval-counters' | 'cash-as-card' | 'doubtful-capture';

/** Why what a column needs is doubtful; see `StockDoubt`. `old`: the machine was not read that day. */
export type RefillFlag =
  | 'no-fill-known'
  | 'visit-unread'
  | 'floor'
  | 'restart'
  | 'absent'
  | 'new-column'
  | 'more-than-par'
  | 'no-par'
  | 'old';

/** What one column needs to be at par again. Null is not known, never 0. */
export interface RefillRow extends DayMachine {
  readonly column: string;
  readonly product: string | null;
  readonly par: Count | null;
  readonly capacity: Count | null;
  /** The fill that is counted from, and the last read. */
  readonly since: LocalDateTime | null;
  readonly until: LocalDateTime | null;
  /** How the fill is known. */
  readonly basis: 'list' | 'service-read' | 'bag' | null;
  readonly sold: Count | null;
  readonly test: Count | null;
  readonly free: Count | null;
  readonly left: Count | null;
  readonly toFill: Count | null;
  readonly soldOut: 'machine' | 'counters' | null;
  readonly flags: readonly RefillFlag[];
}

/** How the day's files came out. */
export interface DayFiles {
  readonly files: Count;
  readonly sound: Count;
  readonly doubtful: Count;
  readonly readAgain: Count;
  /** Of those to be read again: files in which there is no read at all. */
  readonly setAside: Count;
  readonly reads: Count;
  /** Reads that came more than once, and count once. */
  readonly duplicates: Count;
}

/** Which machines were read. */
export interface DayMachines {
  /** Active machines of the roster. */
  readonly expected: Count;
  /** Of those: machines of which a capture came, usable or not. */
  readonly read: Count;
  /** Machines that are on no roster. */
  readonly unknown: Count;
}

/** What was sold in one currency. Only intervals whose figures are known are in the sums, the others are counted. */
export interface DayTotals {
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly intervals: Count;
  readonly openIntervals: Count;
}

/** A day: what came in, what was sold, what has to be looked at, what the machines need. */
export interface Day {
  readonly day: LocalDate;
  readonly files: DayFiles;
  readonly machines: DayMachines;
  readonly totals: readonly DayTotals[];
  /** Worst first. */
  readonly attention: readonly AttentionItem[];
  readonly sales: readonly DaySalesRow[];
  readonly cash: readonly DayCashRow[];
  readonly settlements: readonly Settlement[];
  /** Closed rounds that were adjusted. */
  readonly adjusted: readonly AdjustedRound[];
  readonly refill: readonly RefillRow[];
}
