import type { Finding, Place } from '../findings/index.js';
import type { CaptureReason, LocalDateTime, MachineRow } from '../model/index.js';
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
  /** Why the read must not be used for accounts; empty when it may. */
  readonly faults: readonly Finding[];
}

/** The name by which a machine's reads belong together; null when a read says nothing to tell it from others. */
export function machineKey({ machine, read }: TakenRead): string | null {
  if (machine !== null) return `machine ${machine.machine}`;
  const { asset, serial } = read.machine;
  if (asset !== null) return `asset ${asset}`;
  if (serial !== null) return `serial ${serial}`;
  const board = read.text('CB101');
  return board === null ? null : `board ${board}`;
}

/** The best time there is for a read: when it was received, else the machine's own clock. */
export function bestTime(taken: TakenRead): LocalDateTime | null {
  return taken.receivedAt ?? taken.read.clock;
}

/** A place within a read, with the file added. */
export function placeIn(taken: TakenRead, place: Place | Figure | null): Place {
  if (place === null) return { file: taken.file, read: taken.read.number };
  const { value: _, ...rest } = place as Figure;
  return { file: taken.file, ...rest };
}
