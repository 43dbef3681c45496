import type { Read } from '../read/index.js';
import { type CheckContext, CLOCK_TOLERANCE_MINUTES, type LastGoodRead } from './check.js';
import { type CaptureCircumstances, type ResolvedRead, resolveRead } from './resolve-read.js';

/** What checks may be told besides what the office knows. */
export interface CheckCircumstances extends CaptureCircumstances {
  /** How far a machine's clock may be off, in minutes. Default {@link CLOCK_TOLERANCE_MINUTES}. */
  readonly clockToleranceMinutes?: number;
  /** The machine's last good read before this one, where there is one. */
  readonly lastGood?: LastGoodRead | null;
  /** Whether the same read came before. Default no. */
  readonly isLaterCopy?: boolean;
}

/** All that the checks of a read may know besides the read itself. */
export function makeCheckContext(
  file: string,
  read: Read,
  circumstances: CheckCircumstances,
  resolved: ResolvedRead = resolveRead(file, read, circumstances),
): CheckContext {
  const { machine, saidMachine, saidName, plan, profile, missingProfile } = resolved;
  const { receivedAt, signal, currency, decimals } = resolved;
  return {
    file,
    machine,
    hasRoster: circumstances.roster.books.machines.length > 0,
    saidMachine,
    saidName,
    plan,
    profile,
    missingProfile,
    receivedAt,
    isLaterCopy: circumstances.isLaterCopy ?? false,
    signal,
    clockToleranceMinutes: circumstances.clockToleranceMinutes ?? CLOCK_TOLERANCE_MINUTES,
    lastGood: circumstances.lastGood ?? null,
    currency,
    decimals,
  };
}
