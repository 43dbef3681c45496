import type { TakenRead } from '../interval/index.js';
import type { MachineReads } from './machine-reads.js';

/**
 * Whether a read is known to be a service read: the captures list says so, or the machine clears its counters on service
 * reads only (its profile) and this read cleared them, as the next one shows. Otherwise it is not known, which is no "no".
 */
export function isServiceRead(taken: TakenRead, reads: MachineReads): boolean {
  if (taken.reason !== null) return taken.reason === 'service';
  if (taken.profile?.resets !== 'service-read') return false;
  const next = reads.ordered[reads.ordered.indexOf(taken) + 1];
  return next !== undefined && reads.intervalTo.get(next)?.pair.reset === 'cleared';
}

/** Whether nothing is known of why any of the machine's reads was taken. */
export function isReasonUnknown({ ordered, faulty }: MachineReads): boolean {
  return [...ordered, ...faulty].every(({ reason, profile }) => reason === null && profile?.resets !== 'service-read');
}
