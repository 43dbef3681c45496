import type { Finding, Place } from '../findings/index.js';
import { type CaptureReason, type LocalDateTime, MachineNames, type MachineRow, machineKey } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Figure, Read } from '../read/index.js';
import type { MachineMatch } from '../sheets/index.js';

/** A read with what is known about it from outside: the file it came in, the machine it belongs to, when it arrived. */
export interface TakenRead {
  /** The file, as the caller named it. */
  readonly file: string;
  readonly read: Read;
  /** The roster's machine, and how it was found; null when there is no roster or none fits. */
  readonly machine: MachineRow | null;
  readonly matchedBy: MachineMatch | null;
  readonly profile: Profile | null;
  /** ISO 4217 code and decimals of all money in the read; null when nothing says them. */
  readonly currency: string | null;
  readonly decimals: number | null;
  /** From the captures list. */
  readonly receivedAt: LocalDateTime | null;
  readonly reason: CaptureReason | null;
  readonly bag: string | null;
  readonly filled: boolean | null;
  /** Why the read must not be used for accounts; empty when it may. */
  readonly faults: readonly Finding[];
}

/** The names by which sheets may call the machines of reads; reads that do not say whose they are give none. */
export function namesOfReads(reads: Iterable<TakenRead>): MachineNames {
  const names = new MachineNames();
  for (const taken of reads) {
    const key = machineKey(taken);
    if (key !== null) names.add(key, taken.read.machine);
  }
  return names;
}

/** Whether amounts of two reads can be taken from each other: neither says other money than the other. */
export function isSameMoney(a: TakenRead, b: TakenRead): boolean {
  const agrees = <T>(one: T | null, other: T | null): boolean => one === null || other === null || one === other;
  return agrees(a.currency, b.currency) && agrees(a.decimals, b.decimals);
}

/** A place within a read, with the file and the operator's name of the machine added. */
export function placeIn(taken: TakenRead, place: Place | Figure | null): Place {
  const named = taken.machine === null ? {} : { machine: taken.machine.machine };
  if (place === null) return { file: taken.file, read: taken.read.number, ...named };
  const { value: _, ...rest } = place as Figure;
  return { file: taken.file, ...rest, ...named };
}

/** By the files they came in and their numbers there, so that of reads that tell the same the same one is first, however they come. */
export function compareReads(a: TakenRead, b: TakenRead): number {
  return a.file < b.file ? -1 : a.file > b.file ? 1 : a.read.number - b.read.number;
}
