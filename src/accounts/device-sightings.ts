import { ELEMENT } from '../dictionary/index.js';
import type { TakenRead } from '../interval/index.js';
import type { MachineOfDevice } from '../sheets/index.js';

/** A card device as a read shows it. */
export interface DeviceSighting {
  readonly taken: TakenRead;
  readonly slot: 1 | 2;
}

const SERIALS = [
  [1, ELEMENT.DA101],
  [2, ELEMENT.DB101],
] as const;

/** The serial number of a device as a read gives it. */
export function deviceSerial({ read }: TakenRead, slot: 1 | 2): string | null {
  return read.text(SERIALS[slot - 1]![1])?.trim() || null;
}

/** Every card device by its serial number (DA101, DB101), with the reads that show it. */
export function listDevices(reads: Iterable<TakenRead>): Map<string, DeviceSighting[]> {
  const devices = new Map<string, DeviceSighting[]>();
  for (const taken of reads) {
    for (const [slot] of SERIALS) {
      const serial = deviceSerial(taken, slot);
      if (serial === null) continue;
      const sightings = devices.get(serial);
      if (sightings === undefined) devices.set(serial, [{ taken, slot }]);
      else sightings.push({ taken, slot });
    }
  }
  return devices;
}

/**
 * The roster's machine that a card device is in, for reading deposits that name the device alone.
 *
 * @returns a look-up that gives null for a device that no read shows, or that reads of several machines do
 */
export function findMachineOfDevice(reads: Iterable<TakenRead>): MachineOfDevice {
  const devices = listDevices(reads);
  return (device) => {
    const machines = new Set(devices.get(device)?.map(({ taken }) => taken.machine?.machine ?? null));
    return machines.size === 1 ? [...machines][0]! : null;
  };
}
