import type { LocalDateTime } from '../../../src/model/index.js';
import { type Bag, weighBag } from './hand-work.js';
import { copyLedger, type Ledger } from './ledger.js';
import { fromSeconds } from './local-clock.js';
import { clockOf, type MachineState } from './machine-state.js';
import { valueOfTubes } from './piece-store.js';

/** Why the counters of a machine began again. */
export type Restart = 'board-changed' | 'memory-cleared' | 'other-machine';

/** A column as it stood: what its label said. */
export interface ColumnLabel {
  readonly product: string;
  readonly price: number;
  readonly cardPrice: number | null;
}

/** The truth at one moment: cumulative flows, and what lies where. */
export interface Snapshot {
  /** True time, and what the machine's clock said. */
  readonly at: LocalDateTime;
  readonly clock: LocalDateTime;
  readonly ledger: Ledger;
  readonly columns: ReadonlyMap<string, ColumnLabel>;
  readonly tubes: number;
  readonly credit: number;
  /** What the bag would hold if the driver collected at this moment: everything since the last collection. */
  readonly bag: Bag;
  /** Restarts so far, and with them the era; reads with reset so far. */
  readonly restarts: readonly Restart[];
  readonly resets: number;
  /** Which stretch the interval counters are in: one more after each reset and each restart. */
  readonly intervalStretch: number;
}

export function takeSnapshot(state: MachineState): Snapshot {
  return {
    at: fromSeconds(state.now),
    clock: fromSeconds(clockOf(state)),
    ledger: copyLedger(state.ledger),
    columns: new Map(state.columns.map(({ column, ...label }) => [column, label])),
    tubes: valueOfTubes(state.tubes),
    credit: state.credit,
    bag: weighBag(state),
    restarts: [...state.restarts],
    resets: state.trueResets,
    intervalStretch: state.intervalStarts.length - 1,
  };
}

/** Remember that the interval counters stand at zero now. The first stretch begins with the simulation. */
export function beginIntervalStretch(state: MachineState): void {
  // The snapshot is of the stretch that begins with it, so it has to be counted before it is taken.
  const intervalStretch = state.intervalStarts.length;
  state.intervalStarts.push({ ...takeSnapshot(state), intervalStretch });
}
