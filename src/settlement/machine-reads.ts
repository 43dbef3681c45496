import { type Interval, type Intervals, machineKey, mergeDuplicates, type TakenRead } from '../interval/index.js';
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
      this.#names.add(taken, key);
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

  /** Every machine by the name that the roster, else the machine itself, gives it. */
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

/** The names of machines, strongest first: the roster's; on no roster, the asset number, else the serial number. */
class MachineNames {
  /** Key by name; null where several machines have it, so that it tells nothing. */
  readonly #levels = [0, 1, 2].map(() => new Map<string, string | null>()) as [Names, Names, Names];
  readonly #nameByKey = new Map<string, string>();

  add({ machine, read }: TakenRead, key: string): void {
    const { asset, serial } = read.machine;
    const names = machine === null ? [null, asset, serial] : [machine.machine, null, null];
    for (const [level, name] of names.entries()) {
      if (name === null) continue;
      const known = this.#levels[level]!;
      known.set(name, known.has(name) && known.get(name) !== key ? null : key);
      if (!this.#nameByKey.has(key)) this.#nameByKey.set(key, name);
    }
  }

  find(name: string): string | null {
    for (const level of this.#levels) {
      const key = level.get(name);
      if (key !== undefined) return key;
    }
    return null;
  }

  entries(): Iterable<[key: string, name: string]> {
    return this.#nameByKey;
  }
}

type Names = Map<string, string | null>;
