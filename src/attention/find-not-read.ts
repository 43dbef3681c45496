import { type Finding, makeFinding } from '../findings/index.js';
import type { MachineDay } from './machine-day.js';
import { describeNotRead } from './rules/captures.js';

/** Says that a machine of the roster gave no capture that day, not even one that cannot be used. */
export function findNotRead(day: MachineDay): Finding[] {
  if (!day.isExpected || day.reads.length > 0) return [];
  return [makeFinding('not-read-today', describeNotRead(day), { machine: day.name.row!.machine })];
}
