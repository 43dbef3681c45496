import type { Finding } from '../findings/index.js';
import type { Count, LocalDateTime, Minor } from '../model/index.js';
import type { CashDifferences, CashMovement } from './cash-movement.js';
import type { ColumnSales } from './column-sales.js';
import type { Basis } from './difference.js';
import type { ReadPair } from './read-pair.js';
import type { TakenRead } from './taken-read.js';

/** Sums over an interval. Null is not known, never 0. */
export interface IntervalTotals {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly test: Count | null;
  readonly free: Count | null;
  /** What prices off plan cost; null where no plan was given or a column's loss is not known. */
  readonly loss: Minor | null;
  readonly unexplained: Minor | null;
}

/** What happened at one machine between two consecutive reads. */
export interface Interval {
  readonly from: TakenRead;
  readonly to: TakenRead;
  readonly clockFrom: LocalDateTime | null;
  readonly clockTo: LocalDateTime | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** `lifetime` unless the machine keeps no lifetime counters, or they started again in between. */
  readonly basis: Basis;
  /** Whether the figures are the least it can have been. */
  readonly floor: boolean;
  readonly columns: readonly ColumnSales[];
  readonly totals: IntervalTotals;
  readonly cash: CashMovement;
  /** The cash counters one by one, with what each moved by. */
  readonly differences: CashDifferences;
  readonly findings: readonly Finding[];
  /** The pair it was worked out from: what explanations are made of. */
  readonly pair: ReadPair;
}

/** All intervals of all machines, and what was set aside. */
export interface Intervals {
  readonly intervals: readonly Interval[];
  /** Findings about reads that are in no interval: duplicates, faults, machines that can not be told. */
  readonly findings: readonly Finding[];
  /** Every machine's usable reads in order, by machine key; a machine with one read has no interval. */
  readonly machines: ReadonlyMap<string, readonly TakenRead[]>;
}
