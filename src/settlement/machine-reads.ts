import { type Interval, type Intervals, mergeDuplicates, type TakenRead } from '../interval/index.js';
import { MachineNames, machineKey } from '../model/index.js';
import { ReadIndex } from './read-index.js';
import { makeVisitRead } from './visit-read.js';

/** All reads of one machine, as the settlement looks at them. */
export interface MachineReads {
  /** Usable reads in the order they happened. */
  readonly usable: ReadIndex;
  /** Reads that must not be used for accounts, but that show a capture was taken. */
  readonly faulty: ReadIndex;
  /** The interval that ends with a usable read. */
  readonly intervalTo: ReadonlyMap<TakenRead, Interval>;
}

/** A machine of which there is no read at all. */
export const NO_READS: MachineReads = {
  usable: new ReadIndex([]),
  faulty: new ReadIndex([]),
  intervalTo: new Map(),
};

/** Sorts reads by machine, so that a count sheet's machine finds its own. */
export class ReadsByMachine {
  readonly #machines = new Map<string, MachineReads>();
  readonly #names = new MachineNames();

  constructor(reads: readonly TakenRead[], { machines, intervals }: Intervals) {
    const intervalTo = new Map(intervals.map((interval) => [interval.to, interval]));
    const own = new Map<string, TakenRead[]>();
    for (const taken of reads) {
      const key = machineKey(taken);
      if (key === null) continue;
      this.#names.add(key, taken.read.machine);
      const others = own.get(key);
      if (others === undefined) own.set(key, [taken]);
      else others.push(taken);
    }
    for (const [key, all] of own) {
      this.#machines.set(key, gatherReads(all, machines.get(key) ?? [], intervalTo));
    }
  }

  /** The reads of the machine that a sheet calls by this name; null when there are none, or several machines have it. */
  find(name: string): MachineReads | null {
    const key = this.#names.find(name);
    return key === null ? null : this.#machines.get(key)!;
  }

  /** Every machine by what sheets call it; see `sheetNameOfKey`. */
  *entries(): Generator<[name: string, reads: MachineReads]> {
    for (const [key, name] of this.#names.entries()) yield [name, this.#machines.get(key)!];
  }
}

function gatherReads(
  all: readonly TakenRead[],
  ordered: readonly TakenRead[],
  intervalTo: ReadonlyMap<TakenRead, Interval>,
): MachineReads {
  // Only where a read was set aside is there anything to put to another.
  const groups = all.length === ordered.length ? [] : mergeDuplicates(all);
  const copiesOf = new Map(groups.map(({ kept, duplicates }) => [kept, duplicates]));
  const usable = ordered.map((taken, position) => {
    const next = ordered[position + 1];
    return makeVisitRead(taken, position, copiesOf.get(taken) ?? [], next && intervalTo.get(next));
  });
  const faulty = groups
    .filter(({ kept }) => kept.faults.length > 0)
    .map(({ kept, duplicates }) => makeVisitRead(kept, -1, duplicates, undefined));
  return { usable: new ReadIndex(usable), faulty: new ReadIndex(faulty), intervalTo };
}
