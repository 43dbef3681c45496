import type { Finding } from '../findings/index.js';
import { machineKey } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { buildInterval } from './build-interval.js';
import { buildIntervals } from './build-intervals.js';
import { type Interval, isInterval } from './interval.js';
import type { PlacedRead, Step } from './step.js';
import type { TakenRead } from './taken-read.js';

/** All reads of one machine in the order they happened, and what happened from each to the next. */
export interface MachineHistory {
  /** Every usable read once. */
  readonly ordered: readonly PlacedRead[];
  /** Reads that must not be used for accounts, each once. */
  readonly faulty: readonly PlacedRead[];
  /** Other reads with the same content as one of these, set aside as duplicates. */
  readonly copiesOf: ReadonlyMap<PlacedRead, readonly PlacedRead[]>;
  /** The step that ends with a read; none where the machine's first read is, or nothing can be taken from the one before. */
  readonly stepTo: ReadonlyMap<PlacedRead, Step>;
  /** A read with its contents; null where they are not at hand. */
  readonly contentsOf: (placed: PlacedRead) => TakenRead | null;
}

/** What is known of machines from their reads, by machine key. */
export interface Histories {
  readonly machines: ReadonlyMap<string, MachineHistory>;
  /** Reads of which it cannot be told whose they are. */
  readonly nobodys: readonly PlacedRead[];
  /** Findings about reads that are in no step: duplicates, faults, machines that cannot be told. */
  readonly findings: readonly Finding[];
}

/**
 * Reads of any machines, in any order → the history of each machine.
 *
 * @param reads - sorted by {@link compareReads} where it shall make no difference how they came
 */
export function gatherHistories(reads: readonly TakenRead[], roster: Roster): Histories {
  const { intervals, groups, findings, machines } = buildIntervals(reads, roster);
  const stepTo = new Map<PlacedRead, Interval>(intervals.map((interval) => [interval.to, interval]));
  const copiesOf = new Map<PlacedRead, readonly TakenRead[]>();
  const faulty = new Map<string, TakenRead[]>();
  const nobodys: TakenRead[] = [];
  for (const { kept, duplicates } of groups) {
    const key = machineKey(kept);
    if (key === null) {
      nobodys.push(kept);
      continue;
    }
    if (duplicates.length > 0) copiesOf.set(kept, duplicates);
    if (!machines.has(key) && !faulty.has(key)) faulty.set(key, []);
    if (kept.faults.length > 0) faulty.set(key, [...(faulty.get(key) ?? []), kept]);
  }
  const histories = new Map<string, MachineHistory>();
  for (const key of new Set([...machines.keys(), ...faulty.keys()])) {
    const own = [...(machines.get(key) ?? []), ...(faulty.get(key) ?? [])];
    const copies = own.flatMap((kept) => (copiesOf.has(kept) ? [[kept, copiesOf.get(kept)!] as const] : []));
    const ordered = machines.get(key) ?? [];
    histories.set(key, { ordered, faulty: faulty.get(key) ?? [], copiesOf: new Map(copies), stepTo, contentsOf });
  }
  return { machines: histories, nobodys, findings };
}

/** Reads at hand are their own contents. */
const contentsOf = (placed: PlacedRead): TakenRead => placed as TakenRead;

/**
 * Two usable reads of a machine held against each other, with others between them or not.
 *
 * @returns null where their contents are not at hand
 */
export function measureBetween(
  { stepTo, contentsOf }: Pick<MachineHistory, 'stepTo' | 'contentsOf'>,
  from: PlacedRead,
  to: PlacedRead,
  roster: Roster,
): Interval | null {
  const step = stepTo.get(to);
  if (step !== undefined && step.from === from && isInterval(step)) return step;
  const [earlier, later] = [contentsOf(from), contentsOf(to)];
  return earlier === null || later === null ? null : buildInterval(earlier, later, roster);
}

/** All reads of a machine: the usable ones in order, then those that are not used, and copies. */
export function listReads({ ordered, faulty, copiesOf }: MachineHistory): PlacedRead[] {
  return [...ordered, ...faulty, ...[...copiesOf.values()].flat()];
}

/** Every step of every machine, machine by machine, in order. */
export function listSteps({ machines }: Pick<Histories, 'machines'>): Step[] {
  return [...machines.values()].flatMap(({ ordered, stepTo }) =>
    ordered.map((placed) => stepTo.get(placed)).filter((step) => step !== undefined),
  );
}
