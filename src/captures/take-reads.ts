import {
  type CheckCircumstances,
  type CheckContext,
  checkRead,
  makeCheckContext,
  resolveRead,
} from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import type { TakenRead } from '../interval/index.js';
import type { Read } from '../read/index.js';

/** The checks of one read, with their findings weighed as its profile says. */
export type ReadCheck = (read: Read, context: CheckContext) => readonly Finding[];

/** Options of {@link takeRead}. */
export interface TakeOptions extends CheckCircumstances {
  /** In place of all checks there are. */
  readonly check?: ReadCheck;
}

/**
 * Take a read into the accounts: whose it is, in which money, when it came, and why it must not be used, if so.
 *
 * @param file - the file it came in, as the caller named it; the captures list is looked up by its last part
 */
export function takeRead(file: string, read: Read, options: TakeOptions): TakenRead {
  const resolved = resolveRead(file, read, options);
  const context = makeCheckContext(file, read, options, resolved);
  const check = options.check ?? checkRead;
  const { machine, matchedBy, profile, currency, decimals, receivedAt, reason, bag, filled } = resolved;
  return {
    file,
    read,
    machine,
    matchedBy,
    profile,
    currency,
    decimals,
    receivedAt,
    reason,
    bag,
    filled,
    faults: check(read, context).filter(({ severity }) => severity === 'fault'),
  };
}

/** Take all reads of a file; see {@link takeRead}. */
export function takeReads(file: string, reads: readonly Read[], options: TakeOptions): TakenRead[] {
  return reads.map((read) => takeRead(file, read, options));
}
