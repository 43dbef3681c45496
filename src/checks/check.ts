import type { Finding, FindingCode } from '../findings/index.js';
import type { LocalDateTime, MachineRow, PlanRow } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';

/** What is known besides the capture itself. Everything may be missing, and then nothing is said about it. */
export interface CheckContext {
  /** The file as the caller named it. */
  readonly file: string;
  /** The roster's machine the read belongs to, when there is a roster and it has one. */
  readonly machine: MachineRow | null;
  /** Whether a roster was given at all: only then can a machine be unknown. */
  readonly hasRoster: boolean;
  /** The machine the capture was said to be of, by captures list or option. A file name is no evidence. */
  readonly saidMachine: MachineRow | null;
  readonly plan: (column: string) => PlanRow | null;
  readonly profile: Profile | null;
  /** When the capture was received (captures list, or the file's time where the user says so). */
  readonly receivedAt: LocalDateTime | null;
  /** Signal strength as a modem reports it, 1 to 31. */
  readonly signal: number | null;
  /** How far the machine's clock may be off, in minutes. */
  readonly clockToleranceMinutes: number;
  /** The machine's last good read, to say what a cut one leaves out and what it must have. */
  readonly lastGood: Read | null;
  /** Currency and decimals to take where the capture says none. */
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** One check of one read. */
export interface Check {
  readonly codes: readonly FindingCode[];
  /** What it looks at, in one sentence: DEVELOPERS.md's list is made of these. */
  readonly summary: string;
  /** The rule's source: a published document, `common practice` or `memory`. */
  readonly reference: string;
  readonly run: (read: Read, context: CheckContext) => readonly Finding[];
}

/** How far a machine's clock may be off before it is said, in minutes (domain rule). */
export const CLOCK_TOLERANCE_MINUTES = 10;
