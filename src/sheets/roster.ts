import {
  type CaptureListRow,
  getOrAdd,
  keyOfName,
  keysOfNumbers,
  keysOfSheetName,
  type LocalDate,
  type MachineKey,
  type MachineNumbers,
  type MachineRow,
  type PlanRow,
  parseMachineKey,
} from '../model/index.js';
import { chooseProfile, type Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';
import { type NumberMatch, NumberOwners } from './number-owners.js';

/** What the office knows, as far as it was given. Every list may be empty. */
export interface OfficeBooks {
  readonly machines: readonly MachineRow[];
  readonly plan: readonly PlanRow[];
  readonly capturesList: readonly CaptureListRow[];
  readonly profiles: readonly Profile[];
}

/** How a capture was found to belong to a machine. */
export type MachineMatch = NumberMatch | 'list';

/** A machine of the roster and how it was found. */
export interface RosterMatch {
  readonly machine: MachineRow;
  readonly by: MachineMatch;
}

type PlanIndex = ReadonlyMap<string, ReadonlyMap<string, readonly PlanRow[]>>;

/** The plan is one for all rosters of a run, each of which may have other machines. */
const PLANS = new WeakMap<readonly PlanRow[], PlanIndex>();

function indexPlan(plan: readonly PlanRow[]): PlanIndex {
  const known = PLANS.get(plan);
  if (known !== undefined) return known;
  const index = new Map<string, Map<string, PlanRow[]>>();
  for (const row of plan) {
    const columns = getOrAdd(index, row.machine, () => new Map<string, PlanRow[]>());
    getOrAdd(columns, row.column, () => []).push(row);
  }
  PLANS.set(plan, index);
  return index;
}

/** Looks up what the office knows about the machine or the file at hand. */
export class Roster {
  readonly books: OfficeBooks;
  readonly #byMachine: ReadonlyMap<string, MachineRow>;
  readonly #owners: NumberOwners;
  /** Rows of one column by machine and column, in the sheet's order. */
  readonly #plan: PlanIndex;
  readonly #listed: ReadonlyMap<string, CaptureListRow>;

  constructor(books: Partial<OfficeBooks> = {}) {
    this.books = { machines: [], plan: [], capturesList: [], profiles: [], ...books };
    const { machines, plan, capturesList } = this.books;
    this.#byMachine = firstBy(machines, (row) => row.machine);
    this.#owners = new NumberOwners(machines);
    this.#listed = firstBy(capturesList, (row) => baseName(row.file));
    this.#plan = indexPlan(plan);
  }

  /** The machine of that name on the roster, or null. */
  machine(name: string): MachineRow | null {
    return this.#byMachine.get(name) ?? null;
  }

  /**
   * The roster's machine that a read belongs to: by the asset number it gives, else by its serial number. A capture's
   * file name is no evidence.
   */
  matchMachine({ machine }: { readonly machine: Pick<MachineNumbers, 'asset' | 'serial'> }): RosterMatch | null {
    return this.#owners.find(machine);
  }

  /** What the office's sheets may have called a machine, by its key: its name on the roster, else its bare number. */
  nameOfKey(key: MachineKey): string {
    const { kind, name } = parseMachineKey(key);
    const owner = kind === 'machine' ? null : this.#owners.find({ asset: null, serial: null, [kind]: name });
    return owner?.machine.machine ?? name;
  }

  /**
   * The keys under which reads of a machine may be kept, strongest first: it may have been on no roster when they came. Of one
   * that is on no roster now, the keys that its name may mean.
   */
  keysOfMachine(name: string): MachineKey[] {
    const row = this.machine(name);
    return row === null
      ? keysOfSheetName(name)
      : [keyOfName(name), ...keysOfNumbers({ asset: row.asset, serial: row.serial })];
  }

  /** The captures list's row for a file: the last part of both paths decides. */
  listed(file: string): CaptureListRow | null {
    return this.#listed.get(baseName(file)) ?? null;
  }

  /** The same without what a captures list tells: where that is known from elsewhere. */
  withoutList(): Roster {
    return this.books.capturesList.length === 0 ? this : new Roster({ ...this.books, capturesList: [] });
  }

  /** The plan of one machine, column by column. */
  plan(machine: string): readonly PlanRow[] {
    return [...(this.#plan.get(machine)?.values() ?? [])].flat();
  }

  /** The plan row in force for a column on a date: the latest `from` that is not after it; null when there is none. */
  planned(machine: string, column: string, date: LocalDate | null): PlanRow | null {
    let best: PlanRow | null = null;
    for (const row of this.#plan.get(machine)?.get(column) ?? []) {
      if (row.from !== null && (date === null || row.from > date)) continue;
      if (best === null || (row.from ?? '') >= (best.from ?? '')) best = row;
    }
    return best;
  }

  /** The profile that holds for a read, and the name of one the roster asks for but that is not there. */
  profile(
    read: { readonly machine: Pick<Read['machine'], 'model'> },
    machine: MachineRow | null,
  ): { profile: Profile | null; missing: string | null } {
    const named = machine?.profile ?? null;
    const profile = chooseProfile(this.books.profiles, named, read.machine.model);
    return { profile, missing: named !== null && profile === null ? named : null };
  }
}

/** The last part of a path, whichever separators it has. */
export function baseName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
}

function firstBy<T>(rows: readonly T[], keyOf: (row: T) => string | null): Map<string, T> {
  const found = new Map<string, T>();
  for (const row of rows) {
    const key = keyOf(row);
    if (key !== null && !found.has(key)) found.set(key, row);
  }
  return found;
}
