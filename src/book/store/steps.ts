import type { LocalDateTime } from '../../model/index.js';
import type { ReadKey, WorkedOutRead } from './reads.js';

/** What happened at a machine between two reads, packed: worked out from them, and replaced at any time. */
export interface StepToKeep {
  readonly from: ReadKey;
  readonly to: ReadKey;
  /** What steps have in common, as text; many steps have the same, and it is stored once. */
  readonly layout: string;
  /** What this one has of its own. */
  readonly figures: Uint8Array;
  /** What was found, as JSON; null when nothing was. */
  readonly findings: string | null;
  /** Digest of what it was worked out from, and of what came out. */
  readonly seal: Uint8Array;
}

/** A step as it is in the book. */
export interface BookStep extends StepToKeep {
  readonly machine: string | null;
  /** The times of its two reads. */
  readonly fromAt: LocalDateTime | null;
  readonly toAt: LocalDateTime | null;
  /** What is kept of them rests on; see `KnownOfRead`. */
  readonly fromRests: Uint8Array | null;
  readonly toRests: Uint8Array | null;
}

/** Which steps; what is not given does not matter. They come by machine, then by time. */
export interface StepQuery {
  readonly machine?: string;
  /** First and last time of the later read, both included. */
  readonly atFrom?: LocalDateTime;
  readonly atTo?: LocalDateTime;
}

/** A machine of which reads came in since its steps were last worked out. */
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
  /** All reads that were looked at, those at the edges included: steps between any two of them are replaced. */
  readonly window: readonly ReadKey[];
  /** Those of which something worked out has changed. */
  readonly changed: readonly WorkedOutRead[];
  /** The steps between reads of the window. */
  readonly steps: readonly StepToKeep[];
}

/** A machine as the book knows it. */
export interface BookMachine {
  readonly key: string;
  /** What was last said of it, such as its row on the roster: anything that JSON can say; null when nothing was. */
  readonly facts: unknown;
}
