import type { SegmentId } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, makeFinding } from '../findings/index.js';
import type { MachineRow } from '../model/index.js';
import type { Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';

/** A device that reports itself by one segment, or one of two. */
export interface Device {
  readonly name: string;
  readonly oneOf: readonly SegmentId[];
  /** Whether the roster says that the machine has it; null when it does not say. */
  readonly isExpected: (machine: MachineRow) => boolean | null;
}

/** The devices a machine may report, the control board first. */
export const DEVICES: readonly Device[] = [
  { name: 'control board', oneOf: ['CB1'], isExpected: () => null },
  { name: 'coin mechanism', oneOf: ['CA1'], isExpected: (machine) => machine.hasCash },
  { name: 'bill validator', oneOf: ['BA1'], isExpected: (machine) => machine.hasBills },
  { name: 'card reader', oneOf: ['DA1', 'DB1'], isExpected: (machine) => machine.hasCard },
];

const LOOK = adviseAtCabinet('Look whether it has power and is connected, then read the machine again.');

/** Whether a device reports itself in a read. */
export const isReporting = (device: Device, read: { has(segment: SegmentId): boolean }): boolean =>
  device.oneOf.some((id) => read.has(id));

/** Says which devices do not report that the roster, else the last good read, has. */
export const devicesCheck: Check = {
  codes: ['device-missing'],
  summary: 'Whether coin mechanism, bill validator, card reader and board report, as far as the machine has them.',
  reference: 'memory (CA1, BA1, DA1, DB1, CB1); what a machine must have: its roster row, else its last good read',
  run(read, context) {
    const { machine, lastGood } = context;
    if (!read.isComplete || (machine === null && lastGood === null)) return NOTHING;
    const missing = DEVICES.filter((device) => !isReporting(device, read));
    return missing.flatMap((device) => describe(read, device, context));
  },
};

function describe(read: Read, device: Device, { machine, lastGood }: CheckContext): Finding[] {
  const isExpected = machine === null ? null : device.isExpected(machine);
  const isGone = isExpected === null && lastGood !== null && isReporting(device, lastGood);
  if (isExpected !== true && !isGone) return [];
  const why = isGone ? 'though it did in the last good read' : 'though the roster says the machine has one';
  const ids = device.oneOf.join(' or ');
  return [
    makeFinding('device-missing', `The ${device.name} does not report (${ids}), ${why}.`, {
      read: read.number,
      segment: device.oneOf[0]!,
      expected: ids,
      ...LOOK,
    }),
  ];
}
