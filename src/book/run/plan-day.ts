import {
  keyOfName,
  type LocalDate,
  type LocalDateTime,
  MachineNames,
  type MachineRow,
  rosterNameIn,
} from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookStore } from '../store/index.js';
import { groupMachines } from './group-machines.js';

/** A machine on a day: what came in of it. */
export interface PlannedMachine {
  /** See `machineKey`. */
  readonly key: string;
  readonly row: MachineRow | null;
  /** Entries of the day's files that hold reads of it. */
  readonly entries: readonly number[];
  /** The earliest and the latest time of these reads; null where none has one. */
  readonly first: LocalDateTime | null;
  readonly last: LocalDateTime | null;
  readonly hasUndated: boolean;
}

/** A file of the day as one part has it: whole and counted in one part, in others only for the reads of their machines. */
export interface PlannedFile {
  readonly entry: number;
  readonly isOwner: boolean;
  /** Whether other parts have reads of it. */
  readonly isShared: boolean;
}

/** Machines that are looked at together. */
export interface PlannedPart {
  readonly machines: readonly PlannedMachine[];
  readonly files: readonly PlannedFile[];
}

/** A day in parts, each of which memory can hold. */
export interface DayPlan {
  readonly day: LocalDate;
  /** What sheets may call the machines. */
  readonly names: MachineNames;
  readonly parts: readonly PlannedPart[];
}

/** What a day is planned by. */
export interface PlanOptions {
  readonly day: LocalDate;
  readonly roster: Roster;
  /** How many machines are looked at together. */
  readonly machinesAtOnce: number;
}

/** Find out what came in on a day, and which machines are looked at together. Holds a few numbers a file, and no read. */
export async function planDay(store: BookStore, options: PlanOptions): Promise<DayPlan> {
  const { day, roster } = options;
  const entries = await findEntries(store, day);
  const machines = new MachinesOfDay(roster);
  await machines.addReads(store, entries);
  machines.addExpected();
  const groups = groupMachines(machines.list(), options.machinesAtOnce);
  return { day, names: machines.names, parts: shareFiles(groups, entries) };
}

/** Entries of the files that a day's run took in. */
async function findEntries(store: BookStore, day: LocalDate): Promise<ReadonlySet<number>> {
  const entries = new Set<number>();
  for await (const entry of store.entries({ dayFrom: day, dayTo: day, kinds: ['capture-taken', 'set-aside'] })) {
    // Set aside, and taken in later that day: one file.
    if (entry.refersTo !== null) entries.delete(entry.refersTo);
    entries.add(entry.seq);
  }
  return entries;
}

/** Gathers the machines of a day. */
class MachinesOfDay {
  readonly names = new MachineNames();
  readonly #roster: Roster;
  readonly #found = new Map<
    string,
    PlannedMachine & {
      entries: number[];
      first: LocalDateTime | null;
      last: LocalDateTime | null;
      hasUndated: boolean;
    }
  >();

  constructor(roster: Roster) {
    this.#roster = roster;
  }

  async addReads(store: BookStore, entries: ReadonlySet<number>): Promise<void> {
    let [from, to] = [Number.POSITIVE_INFINITY, 0];
    for (const entry of entries) [from, to] = [Math.min(from, entry), Math.max(to, entry + 1)];
    if (entries.size === 0) return;
    for await (const { entry, machine, at, ...numbers } of store.reads({ entryFrom: from, entryTo: to })) {
      if (machine === null || !entries.has(entry)) continue;
      const name = rosterNameIn(machine);
      const own = this.#of(machine, name === null ? null : this.#roster.machine(name));
      this.names.add(machine, numbers);
      if (own.entries.at(-1) !== entry) own.entries.push(entry);
      if (at === null) own.hasUndated = true;
      else {
        if (own.first === null || at < own.first) own.first = at;
        if (own.last === null || at > own.last) own.last = at;
      }
    }
  }

  /** The machines of which something is looked for, or of which only a bag may have come. */
  addExpected(): void {
    for (const row of this.#roster.books.machines) this.#of(keyOfName(row.machine), row);
  }

  list(): readonly PlannedMachine[] {
    return [...this.#found.values()];
  }

  #of(key: string, row: MachineRow | null) {
    const known = this.#found.get(key);
    if (known !== undefined) return known;
    const made = { key, row, entries: [], first: null, last: null, hasUndated: false };
    this.#found.set(key, made);
    this.names.add(key);
    return made;
  }
}

/** Give each file to the first part that has reads of it; files without reads of any machine to the first of all. */
function shareFiles(groups: readonly (readonly PlannedMachine[])[], entries: ReadonlySet<number>): PlannedPart[] {
  const owner = new Map<number, number>();
  const shared = new Set<number>();
  for (const [place, machines] of groups.entries()) {
    for (const entry of machines.flatMap((machine) => machine.entries)) {
      const first = owner.get(entry);
      if (first === undefined) owner.set(entry, place);
      else if (first !== place) shared.add(entry);
    }
  }
  const unclaimed = [...entries].filter((entry) => !owner.has(entry));
  return groups.map((machines, place) => {
    const own = new Set([...(place === 0 ? unclaimed : []), ...machines.flatMap((machine) => machine.entries)]);
    const files = [...own].map((entry) => ({
      entry,
      isOwner: (owner.get(entry) ?? 0) === place,
      isShared: shared.has(entry),
    }));
    return { machines, files };
  });
}
