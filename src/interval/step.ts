import type { SegmentId } from '../dictionary/index.js';
import type { Finding } from '../findings/index.js';
import type { CaptureReason, Count, LocalDateTime, MachineNumbers, MachineRow, Minor } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';
import type { CashMovement } from './cash-movement.js';
import type { Basis, Difference } from './difference.js';
import type { ResetState } from './resets.js';
import type { Restart } from './restart.js';

/**
 * A read as accounts need it once its counters are in a {@link Step}: whose it is, when it was taken, why, and nothing of
 * its contents. A taken read is one; so is what a book keeps of a read, without its bytes.
 */
export interface PlacedRead {
  /** The file, as the caller named it. */
  readonly file: string;
  readonly read: Pick<Read, 'number' | 'clock' | 'appendedAt'> & {
    readonly machine: MachineNumbers;
    /** Whether it has a segment of a device; see `DEVICES` of checks. */
    has(segment: SegmentId): boolean;
    /** What the meters since the last reset show: an indication where there is nothing to count from. */
    integer(element: 'CA302' | 'CA304'): number | null;
  };
  readonly machine: MachineRow | null;
  readonly profile: Profile | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly receivedAt: LocalDateTime | null;
  readonly reason: CaptureReason | null;
  readonly bag: string | null;
  readonly filled: boolean | null;
  /** Why the read must not be used for accounts; empty when it may. */
  readonly faults: readonly Finding[];
  /** What is doubted of it, as far as that bears on figures: whatever rests on the read carries these. */
  readonly doubts: readonly Finding[];
}

/** What one counter moved by, and how far that can be relied on. */
export type Moved = Pick<Difference, 'value' | 'basis' | 'floor' | 'why'>;

/** The counters behind {@link CashMovement} that accounts look at one by one, and what may explain a rest. */
export const STEP_COUNTERS = [
  'cashIn',
  'toCashBox',
  'toTubes',
  'dispensed',
  'byHand',
  'filled',
  'overpaid',
  'cashSales',
  'cardSales1',
  'cardSales2',
  'tokenSales',
  'credited1',
  'credited2',
  'billsStated',
  'billsOther',
  'powerFailures',
] as const;

/** Sums over a step. Null is not known, never 0. */
export interface StepTotals {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly test: Count | null;
  readonly free: Count | null;
  /** What prices off plan cost; null where no plan was given or a column's loss is not known. */
  readonly loss: Minor | null;
  readonly unexplained: Minor | null;
}

/** What one column did in a step. Money in minor units; null is not known, never 0. */
export interface StepColumn {
  readonly column: string;
  readonly product: string | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  /** The price in the machine at the earlier and the later read, and the operator's in force at the later. */
  readonly priceFrom: Minor | null;
  readonly priceTo: Minor | null;
  readonly pricePlan: Minor | null;
  readonly test: Count | null;
  readonly free: Count | null;
  /** Whether either read counts test vends, and free vends: a machine that does not keeps none. */
  readonly keepsTest: boolean;
  readonly keepsFree: boolean;
  readonly unexplained: Minor | null;
  readonly loss: Minor | null;
  readonly basis: Basis;
  readonly floor: boolean;
  /** Which of the reads have the column. */
  readonly inFrom: boolean;
  readonly inTo: boolean;
}

/**
 * What happened at one machine between two reads that stand next to each other, as plain figures: all that sums, visits,
 * days and estimates are made of. It can be kept and taken up again without the reads.
 */
export interface Step {
  readonly from: PlacedRead;
  readonly to: PlacedRead;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** `lifetime` unless the machine keeps no lifetime counters, or they started again in between. */
  readonly basis: Basis;
  /** Whether the figures are the least it can have been. */
  readonly floor: boolean;
  readonly columns: readonly StepColumn[];
  readonly totals: StepTotals;
  readonly cash: CashMovement;
  readonly differences: { readonly [counter in (typeof STEP_COUNTERS)[number]]: Moved };
  /** Whether the amounts of the two reads are of one money. */
  readonly isSameMoney: boolean;
  /** Whether any figure rests on counters since the last reset. */
  readonly usesIntervalCounters: boolean;
  /** What speaks for the counters having started again, if anything does. */
  readonly restart: Pick<Restart, 'cause' | 'evidence' | 'counters'> | null;
  /** What happened to the interval counters. */
  readonly reset: ResetState;
  readonly findings: readonly Finding[];
}
