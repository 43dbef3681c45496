import { type Histories, listReads, type MachineHistory, type PlacedRead, type Step } from '../interval/index.js';
import { MachineNames } from '../model/index.js';
import { ReadIndex } from './read-index.js';
import { makeVisitRead } from './visit-read.js';

/** All reads of one machine, as the settlement looks at them. */
export interface MachineReads {
  /** Usable reads in the order they happened. */
  readonly usable: ReadIndex;
  /** Reads that must not be used for accounts, but that show a capture was taken. */
  readonly faulty: ReadIndex;
  /** The step that ends with a usable read. */
  readonly stepTo: ReadonlyMap<PlacedRead, Step>;
  /** A read with its contents; null where they are not at hand. */
  readonly contentsOf: MachineHistory['contentsOf'];
}

/** A machine of which there is no read at all. */
export const NO_READS: MachineReads = {
  usable: new ReadIndex([]),
  faulty: new ReadIndex([]),
  stepTo: new Map(),
  contentsOf: () => null,
};

/** Sorts reads by machine, so that a count sheet's machine finds its own. */
export class ReadsByMachine {
  readonly #machines = new Map<string, MachineReads>();
  readonly #names = new MachineNames();

  constructor({ machines }: Histories) {
    for (const [key, history] of machines) {
      for (const placed of listReads(history)) this.#names.add(key, placed.read.machine);
      this.#machines.set(key, gatherReads(history));
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

function gatherReads({ ordered, faulty: unusable, copiesOf, stepTo, contentsOf }: MachineHistory): MachineReads {
  const usable = ordered.map((placed, position) => {
    const next = ordered[position + 1];
    return makeVisitRead(placed, position, copiesOf.get(placed) ?? [], next && stepTo.get(next));
  });
  const faulty = unusable.map((placed) => makeVisitRead(placed, -1, copiesOf.get(placed) ?? [], undefined));
  return {
    usable: new ReadIndex(usable),
    faulty: new ReadIndex(faulty),
    stepTo,
    contentsOf,
  };
}
