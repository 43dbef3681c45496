import fc from 'fast-check';
import { type MachineConfig, type Snapshot, type Truth, truthBetween } from '../simulator/index.js';
import { arbitraryStretch, type StepChoice, type Stretch } from './history-steps.js';
import { arbitraryMachineConfig, type MachineChoice } from './machine-config.js';
import { HistoryPlayer, type HistoryRead } from './play-history.js';

/** What a random history may hold. */
export interface HistoryChoice extends StepChoice {
  readonly machine?: MachineChoice;
  /** Reads after the opening one. Default 1 to 5. */
  readonly minReads?: number;
  readonly maxReads?: number;
  /** Most things that happen between two reads. Default 25. */
  readonly maxSteps?: number;
}

/** A machine's life from an opening visit on, read by read, with the truth between any two reads. */
export interface History {
  readonly config: MachineConfig;
  readonly reads: readonly HistoryRead[];
  /** The truth between two reads by their place in `reads`, earlier first. Exact, whatever the counters did. */
  truthBetween(from: number, to: number): Truth;
  /** The truth since the counters last began again before a read: what the counters themselves can tell at best. */
  truthSinceRestart(to: number): Truth;
  /** The truth since the interval counters of a read last stood at zero: what those counters cover. */
  truthSinceReset(to: number): Truth;
  /** The truth between two snapshots that some other rule picks. */
  truthBetweenSnapshots(from: Snapshot, to: Snapshot): Truth;
  /** Reads at which a bag was taken, by their place in `reads`. */
  readonly visits: readonly number[];
}

/** Play stretches on a machine, after an opening visit at which everything before was collected. */
export function playHistory(config: MachineConfig, stretches: readonly Stretch[]): History {
  const player = new HistoryPlayer(config);
  player.takeRead(true);
  for (const stretch of stretches) player.playStretch(stretch);
  const { reads, machine } = player;
  const snapshotOf = (index: number): Snapshot => {
    const read = reads[index];
    if (read === undefined) throw new RangeError(`no read ${index}`);
    return read.snapshot;
  };
  return {
    config,
    reads,
    truthBetween: (from, to) => truthBetween(snapshotOf(from), snapshotOf(to)),
    truthSinceRestart: (to) => truthBetween(machine.eraStartOf(snapshotOf(to)), snapshotOf(to)),
    truthSinceReset: (to) => truthBetween(machine.intervalStartOf(snapshotOf(to)), snapshotOf(to)),
    truthBetweenSnapshots: truthBetween,
    visits: reads.flatMap((read, index) => (read.bag === null ? [] : [index])),
  };
}

/**
 * Random histories of random machines: sales, prices, payments, hand work, reads and visits, and what else is allowed.
 * The opening read is a visit. A failing case prints its configuration and steps.
 */
export function arbitraryHistory(choice: HistoryChoice = {}): fc.Arbitrary<History> {
  // A restart of counters that had counted next to nothing leaves no trace; a machine in service has a past.
  const minPastVends = (choice.restarts ?? []).length > 0 ? 400 : 0;
  return fc
    .record({
      config: arbitraryMachineConfig({ minPastVends, ...choice.machine }),
      stretches: fc.array(arbitraryStretch(choice, choice.maxSteps ?? 25), {
        minLength: choice.minReads ?? 1,
        maxLength: choice.maxReads ?? 5,
      }),
    })
    .map(({ config, stretches }) => ({
      ...playHistory(config, stretches),
      [fc.toStringMethod]: () => JSON.stringify({ config, stretches }),
    }));
}
