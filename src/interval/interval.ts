import type { Finding } from '../findings/index.js';
import type { LocalDateTime } from '../model/index.js';
import type { CashDifferences } from './cash-movement.js';
import type { ColumnSales } from './column-sales.js';
import type { Difference } from './difference.js';
import type { SameRead } from './duplicates.js';
import type { ReadPair } from './read-pair.js';
import type { Step } from './step.js';
import type { TakenRead } from './taken-read.js';

/** A step with the two reads it was worked out from, and how every figure came about. */
export interface Interval extends Step {
  readonly from: TakenRead;
  readonly to: TakenRead;
  readonly clockFrom: LocalDateTime | null;
  readonly clockTo: LocalDateTime | null;
  readonly columns: readonly ColumnSales[];
  /** The cash counters one by one, with what each moved by. */
  readonly differences: CashDifferences & {
    readonly billsStated: Difference;
    readonly billsOther: Difference;
    readonly powerFailures: Difference;
  };
  /** The pair it was worked out from: what explanations are made of. */
  readonly pair: ReadPair;
}

/** Whether the reads of a step are at hand, so that its figures can be explained. */
export function isInterval(step: Step): step is Interval {
  return 'pair' in step;
}

/** Two reads that follow each other and of which nothing can be taken from one to the other, and why. */
export interface Gap {
  readonly from: TakenRead;
  readonly to: TakenRead;
  readonly finding: Finding;
}

/** All intervals of all machines, and what was set aside. */
export interface Intervals {
  readonly intervals: readonly Interval[];
  readonly gaps: readonly Gap[];
  /** Every read once, with those that are the same. */
  readonly groups: readonly SameRead[];
  /** Findings about reads that are in no interval: duplicates, faults, machines that can not be told. */
  readonly findings: readonly Finding[];
  /** Every machine's usable reads in order, by machine key; a machine with one read has no interval. */
  readonly machines: ReadonlyMap<string, readonly TakenRead[]>;
}
