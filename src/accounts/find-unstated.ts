import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { TakenRead } from '../interval/index.js';
import { machineKey } from '../model/index.js';

/** Machines that were read and that no machine of the roster fits, or more than one: what they sold is in no statement. One finding a machine. */
export function findUnstated(reads: Iterable<TakenRead>): Finding[] {
  const unknown = new Map<string, TakenRead>();
  for (const taken of reads) {
    if (taken.machine !== null || taken.faults.length > 0) continue;
    const key = machineKey(taken) ?? '';
    if (!unknown.has(key)) unknown.set(key, taken);
  }
  return [...unknown].map(([key, { file }]) =>
    makeFinding(
      'unknown-machine',
      `${nameOf(key)}: no one machine on the roster fits, so what it sold is in no statement.`,
      {
        file,
        advice: 'Enter it in the machine sheet, or correct the asset or serial number there.',
      },
    ),
  );
}

function nameOf(key: string): string {
  return key === '' ? 'A machine whose capture does not name it' : `The machine of ${printable(key)}`;
}
