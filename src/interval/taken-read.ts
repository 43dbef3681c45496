import type { Place } from '../findings/index.js';
import { MachineNames, machineKey } from '../model/index.js';
import type { Figure, Read } from '../read/index.js';
import type { MachineMatch } from '../sheets/index.js';
import type { PlacedRead } from './step.js';

/** A read with what is known about it from outside: the file it came in, the machine it belongs to, when it arrived. */
export interface TakenRead extends PlacedRead {
  readonly read: Read;
  /** How the roster's machine was found; null when there is no roster or none fits. */
  readonly matchedBy: MachineMatch | null;
}

/** Whether a read is at hand with its contents. */
export function isTaken(placed: PlacedRead): placed is TakenRead {
  return 'matchedBy' in placed;
}

/** The names by which sheets may call the machines of reads; reads that do not say whose they are give none. */
export function namesOfReads(reads: Iterable<PlacedRead>): MachineNames {
  const names = new MachineNames();
  for (const placed of reads) {
    const key = machineKey(placed);
    if (key !== null) names.add(key, placed.read.machine);
  }
  return names;
}

/** Whether amounts of two reads can be taken from each other: neither says other money than the other. */
export function isSameMoney(a: TakenRead, b: TakenRead): boolean {
  const agrees = <T>(one: T | null, other: T | null): boolean => one === null || other === null || one === other;
  return agrees(a.currency, b.currency) && agrees(a.decimals, b.decimals);
}

/** A place within a read, with the file and the operator's name of the machine added. */
export function placeIn(taken: Pick<PlacedRead, 'file' | 'machine' | 'read'>, place: Place | Figure | null): Place {
  const named = taken.machine === null ? {} : { machine: taken.machine.machine };
  if (place === null) return { file: taken.file, read: taken.read.number, ...named };
  const { value: _, ...rest } = place as Figure;
  return { file: taken.file, ...rest, ...named };
}

/** By the files they came in and their numbers there, so that of reads that tell the same the same one is first, however they come. */
export function compareReads(a: PlacedRead, b: PlacedRead): number {
  return a.file < b.file ? -1 : a.file > b.file ? 1 : a.read.number - b.read.number;
}
