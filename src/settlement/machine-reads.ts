import type { Interval, Intervals, TakenRead } from '../interval/index.js';
import { machineKey } from '../interval/index.js';

/** All reads of one machine, as the settlement looks at them. */
export interface MachineReads {
  /** Usable reads in the order they happened. */
  readonly ordered: readonly TakenRead[];
  /** Reads that must not be used for accounts, but that show a capture was taken. */
  readonly faulty: readonly TakenRead[];
  /** The interval that ends with a usable read. */
  readonly intervalTo: ReadonlyMap<TakenRead, Interval>;
}

/** Sorts reads by machine, so that a count sheet's machine finds its own. */
export class ReadsByMachine {
  readonly #machines = new Map<string, MachineReads>();
  /** Names by which a count sheet may call a machine that is on no roster: what the machine calls itself. */
  readonly #keyByName = new Map<string, string>();

  constructor(reads: readonly TakenRead[], { machines, intervals }: Intervals) {
    const intervalTo = new Map(intervals.map((interval) => [interval.to, interval]));
    const faulty = new Map<string, TakenRead[]>();
    for (const taken of reads) {
      const key = machineKey(taken);
      if (key === null) continue;
      this.#addNames(taken, key);
      if (taken.faults.length === 0) continue;
      const others = faulty.get(key);
      if (others === undefined) faulty.set(key, [taken]);
      else others.push(taken);
    }
    for (const key of new Set([...machines.keys(), ...faulty.keys()])) {
      this.#machines.set(key, { ordered: machines.get(key) ?? [], faulty: faulty.get(key) ?? [], intervalTo });
    }
  }

  /** The reads of the machine that a sheet calls by this name; null when there are none. */
  find(name: string): MachineReads | null {
    const key = this.#keyByName.get(name);
    return key === undefined ? null : (this.#machines.get(key) ?? null);
  }

  /** Every machine by the name that the roster, else the machine itself, gives it. */
  *entries(): Generator<[name: string, reads: MachineReads]> {
    const named = new Set<string>();
    for (const [name, key] of this.#keyByName) {
      const reads = this.#machines.get(key);
      if (reads === undefined || named.has(key)) continue;
      named.add(key);
      yield [name, reads];
    }
  }

  #addNames({ machine, read }: TakenRead, key: string): void {
    const names = machine === null ? [read.machine.asset, read.machine.serial] : [machine.machine];
    for (const name of names) {
      if (name !== null && !this.#keyByName.has(name)) this.#keyByName.set(name, key);
    }
  }
}
