import type { Severity } from '../../findings/index.js';
import type { LocalDateTime } from '../../model/index.js';
import type { ReadKey, WorkedOutRead } from './reads.js';

/** What happened at a machine between two reads, as it is kept: worked out from them, and replaced at any time. */
export interface IntervalToKeep {
  readonly from: ReadKey;
  readonly to: ReadKey;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** Total sold, and its value in minor units; null is not known. */
  readonly sold: number | null;
  readonly value: number | null;
  /** The worst of its findings. */
  readonly severity: Severity | null;
  /** Everything else, in whatever shape the layer above has given it: anything that JSON can say. */
  readonly body: unknown;
}

/** An interval as it is in the book. */
export interface BookInterval extends IntervalToKeep {
  readonly machine: string | null;
  /** The best times of its two reads. */
  readonly fromAt: LocalDateTime | null;
  readonly toAt: LocalDateTime | null;
}

/** Which intervals; what is not given does not matter. They come by machine, then by time. */
export interface IntervalQuery {
  readonly machine?: string;
  /** First and last time of the later read, both included. */
  readonly atFrom?: LocalDateTime;
  readonly atTo?: LocalDateTime;
  /** First entry of the later read, and the one after the last. */
  readonly entryFrom?: number;
  readonly entryTo?: number;
}

/** A machine of which reads came in since its intervals were last worked out. */
export interface StaleMachine {
  readonly machine: string;
  /** A number that rises with every change: hand it back to {@link WorkedOut.asOf}. */
  readonly revision: number;
  /** The earliest time among what changed; null when there may be changes anywhere in its history. */
  readonly since: LocalDateTime | null;
}

/** What was worked out for a machine: it takes the place of what was there for the same reads. */
export interface WorkedOut {
  readonly machine: string;
  /**
   * {@link StaleMachine.revision} as it was before the reads were looked at. When more has come in since, the machine stays
   * stale, so that nothing is missed.
   */
  readonly asOf: number;
  /** All reads that were looked at, those at the edges included: intervals between any two of them are replaced. */
  readonly window: readonly ReadKey[];
  /** Those of which something worked out has changed. */
  readonly changed: readonly WorkedOutRead[];
  /** The intervals between reads of the window. */
  readonly intervals: readonly IntervalToKeep[];
}

/** A machine as the book knows it. */
export interface BookMachine {
  readonly key: string;
  /** What was last said of it, such as its row on the roster: anything that JSON can say; null when nothing was. */
  readonly facts: unknown;
}
