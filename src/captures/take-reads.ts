import {
  type CheckCircumstances,
  type CheckContext,
  checkRead,
  isDoubtOfFigures,
  makeCheckContext,
  type ResolvedRead,
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

/** A read taken into the accounts, with all that was looked up and found on the way. */
export interface TakenWithFindings {
  readonly taken: TakenRead;
  readonly resolved: ResolvedRead;
  readonly context: CheckContext;
  readonly findings: readonly Finding[];
}

/**
 * Take a read into the accounts: whose it is, in which money, when it came, and why it must not be used, if so.
 *
 * @param file - the file it came in, as the caller named it; the captures list is looked up by its last part
 */
export function takeRead(file: string, read: Read, options: TakeOptions): TakenRead {
  return takeChecked(file, read, options).taken;
}

/** The same, with what checks found. */
export function takeChecked(file: string, read: Read, options: TakeOptions): TakenWithFindings {
  const resolved = resolveRead(file, read, options);
  const context = makeCheckContext(file, read, options, resolved);
  const findings = (options.check ?? checkRead)(read, context);
  const { machine, matchedBy, profile, currency, decimals, receivedAt, reason, bag, filled } = resolved;
  const faults = findings.filter(({ severity }) => severity === 'fault');
  const taken = {
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
    faults,
    doubts: findings.filter(isDoubtOfFigures),
  };
  return { taken, resolved, context, findings };
}

/**
 * Reads of a file with what was found on it as a whole: where one read is all that is in it, a doubt of the file is one of the
 * read; of several it cannot be told which it is about.
 */
export function withDoubtsOfFile(reads: readonly TakenRead[], ofFile: readonly Finding[]): readonly TakenRead[] {
  const [only, ...others] = reads;
  const doubts = ofFile.filter(isDoubtOfFigures);
  if (only === undefined || others.length > 0 || doubts.length === 0) return reads;
  return [{ ...only, doubts: [...only.doubts, ...doubts.map((finding) => ({ file: only.file, ...finding }))] }];
}

/** Take all reads of a file; see {@link takeRead}. */
export function takeReads(file: string, reads: readonly Read[], options: TakeOptions): TakenRead[] {
  return reads.map((read) => takeRead(file, read, options));
}
