import { type CaptureCheck, keyOfSummary, timeOfSummary } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import type { PlacedRead, Step } from '../interval/index.js';
import {
  keyOfName,
  type LocalDate,
  type MachineKey,
  MachineNames,
  type MachineRow,
  machineKey,
  nameOfMachineKey,
  rosterNameIn,
} from '../model/index.js';
import type { Visit } from '../settlement/index.js';
import type { Roster } from '../sheets/index.js';
import type { AdjustedRound } from './adjusted-round.js';
import type { DayRead, MachineDay, MachineName } from './machine-day.js';
import { outlineInterval, type Past, type PastStretch } from './sales-history.js';
import type { MachineStock } from './stock.js';

/**
 * What a day brought. Machines are keyed as `machineKey` does.
 */
export interface AttentionInputs {
  readonly day: LocalDate;
  readonly roster: Roster;
  /** The machines of which a capture is looked for. Default: all of the roster. Inactive ones are left out. */
  readonly expected?: readonly MachineRow[];
  /** Every file of the day as it was checked, those set aside included. */
  readonly checks: readonly CaptureCheck[];
  /** The intervals that the day's captures made. */
  readonly intervals: readonly Step[];
  /** The day's visits. */
  readonly visits: readonly Visit[];
  /** The last usable read of each machine, of whatever day. */
  readonly latest: ReadonlyMap<string, PlacedRead>;
  readonly stock: ReadonlyMap<string, MachineStock>;
  /** What each machine did before the day and before `earlier`, from read to read, oldest first. */
  readonly past: Past;
  /** Steps before the day that are at hand: they follow what `past` has of a machine. Default: none. */
  readonly earlier?: readonly Step[];
  /** What else was found: in the sheets, on reads that are in no interval, on whole settlements. */
  readonly findings: readonly Finding[];
  /** Closed rounds that were adjusted. Default: none. */
  readonly adjusted?: readonly AdjustedRound[];
}

/** A day by machine, and what belongs to none. */
export interface SplitDay {
  readonly machines: ReadonlyMap<string, MachineDay>;
  /** Reads that do not say whose they are, and findings that name no machine. */
  readonly nobody: MachineDay;
  /** Files in which there is no read. */
  readonly setAside: readonly CaptureCheck[];
  readonly adjusted: readonly AdjustedRound[];
}

/** Sort all that a day brought by machine. Nothing is left out: what names no machine is in the rest. */
export function splitDay(inputs: AttentionInputs): SplitDay {
  const splitter = new DaySplitter(inputs);
  for (const check of inputs.checks) splitter.addCheck(check);
  for (const interval of inputs.intervals) splitter.addInterval(interval);
  for (const row of inputs.expected ?? inputs.roster.books.machines) splitter.expect(row);
  for (const visit of inputs.visits) splitter.addVisit(visit);
  for (const finding of inputs.findings) splitter.addFinding(finding);
  return splitter.end();
}

interface Group {
  isExpected: boolean;
  readonly reads: DayRead[];
  readonly intervals: Step[];
  readonly visits: Visit[];
  readonly findings: Finding[];
}

const makeGroup = (): Group => ({ isExpected: false, reads: [], intervals: [], visits: [], findings: [] });

class DaySplitter {
  readonly #inputs: AttentionInputs;
  readonly #groups = new Map<string, Group>();
  /** The machine of each read of a file, in the order of the reads. */
  readonly #keysOfFile = new Map<string, readonly (string | null)[]>();
  readonly #names = new MachineNames();
  readonly #nobody = makeGroup();
  readonly #setAside: CaptureCheck[] = [];
  readonly #earlier = new Map<string, PastStretch[]>();

  constructor(inputs: AttentionInputs) {
    this.#inputs = inputs;
    for (const taken of inputs.latest.values()) this.#ofRead(taken);
    for (const step of inputs.earlier ?? []) this.#addEarlier(step);
    for (const key of [...inputs.stock.keys(), ...inputs.past.keys(), ...this.#earlier.keys()]) {
      this.#names.add(key);
      this.#group(key);
    }
  }

  #addEarlier(step: Step): void {
    const stretch = outlineInterval(step);
    if (stretch === null) return;
    const key = machineKey(step.to)!;
    const own = this.#earlier.get(key);
    if (own === undefined) this.#earlier.set(key, [stretch]);
    else own.push(stretch);
  }

  addCheck(check: CaptureCheck): void {
    const { file, reads, findings } = check;
    if (reads.length === 0) {
      this.#setAside.push(check);
      return;
    }
    const keys = reads.map(keyOfSummary);
    for (const [number, key] of keys.entries()) if (key !== null) this.#names.add(key, reads[number]!.machine);
    this.#keysOfFile.set(file, keys);
    const isAlone = reads.length === 1;
    for (const [number, summary] of reads.entries()) {
      const own = findings.filter(({ read }) => read === number || (read === undefined && isAlone));
      const at = timeOfSummary(summary)?.time ?? null;
      this.#group(keys[number]!).reads.push({ file, number, at, summary, findings: own });
    }
    if (isAlone) return;
    for (const finding of findings) if (finding.read === undefined) this.addFinding(finding);
  }

  addInterval(interval: Step): void {
    this.#ofRead(interval.to).intervals.push(interval);
  }

  expect(row: MachineRow): void {
    if (row.active !== false) this.#group(keyOfName(row.machine)).isExpected = true;
  }

  addVisit(visit: Visit): void {
    this.#group(this.#keyOfName(visit.machine)).visits.push(visit);
  }

  addFinding(finding: Finding): void {
    this.#group(this.#keyOfFinding(finding)).findings.push(finding);
  }

  end(): SplitDay {
    const machines = new Map<string, MachineDay>();
    for (const [key, group] of this.#groups) machines.set(key, this.#assemble(key, group));
    const { adjusted = [] } = this.#inputs;
    return { machines, nobody: this.#assemble(null, this.#nobody), setAside: this.#setAside, adjusted };
  }

  #assemble(key: string | null, group: Group): MachineDay {
    const { day, roster, latest, stock, past } = this.#inputs;
    const today = group.intervals.map(outlineInterval).filter((stretch) => stretch !== null);
    const known = [...((key === null ? null : this.#earlier.get(key)) ?? []), ...today];
    let stretches: readonly PastStretch[] | null = null;
    return {
      day,
      name: nameOf(key, roster),
      ...group,
      reads: group.reads.toSorted(byTime),
      latest: (key === null ? null : latest.get(key)) ?? null,
      stock: (key === null ? null : stock.get(key)) ?? null,
      get stretches() {
        stretches ??= [...((key === null ? null : past.get(key)) ?? []), ...known].toSorted(byEnd);
        return stretches;
      },
      lastStretch: known.toSorted(byEnd).at(-1) ?? null,
    };
  }

  /** The group of a read in an interval, which always says whose it is. */
  #ofRead(taken: PlacedRead): Group {
    const key = machineKey(taken)!;
    this.#names.add(key, taken.read.machine);
    return this.#group(key);
  }

  #group(key: string | null): Group {
    if (key === null) return this.#nobody;
    const known = this.#groups.get(key);
    if (known !== undefined) return known;
    const group = makeGroup();
    this.#groups.set(key, group);
    return group;
  }

  #keyOfName(name: string): MachineKey {
    const isOnRoster = this.#inputs.roster.machine(name) !== null;
    return (isOnRoster ? null : this.#names.find(name)) ?? keyOfName(name);
  }

  #keyOfFinding({ machine, file, read }: Finding): string | null {
    if (machine !== undefined) return this.#keyOfName(machine);
    const keys = file === undefined ? undefined : this.#keysOfFile.get(file);
    if (keys === undefined) return null;
    if (read !== undefined) return keys[read] ?? null;
    return new Set(keys).size === 1 ? keys[0]! : null;
  }
}

const NO_NAME: MachineName = { name: null, row: null, location: null, route: null, driver: null };

function nameOf(key: string | null, roster: Roster): MachineName {
  if (key === null) return NO_NAME;
  const onRoster = rosterNameIn(key);
  const row = onRoster === null ? null : roster.machine(onRoster);
  return {
    name: nameOfMachineKey(key),
    row,
    location: row?.location ?? null,
    route: row?.route ?? null,
    driver: row?.driver ?? null,
  };
}

/** A capture that came late makes intervals of the day that lie before others. */
const byEnd = (a: PastStretch, b: PastStretch): number => (a.to < b.to ? -1 : a.to > b.to ? 1 : 0);

/** A read whose time is not known comes first: it can not be said to be later than another. */
function byTime(a: DayRead, b: DayRead): number {
  const [left, right] = [a.at ?? '', b.at ?? ''];
  return left < right ? -1 : left > right ? 1 : 0;
}
