import type { SegmentId } from '../dictionary/index.js';
import type { Finding, FindingCode } from '../findings/index.js';
import type { LocalDateTime, MachineRow, PlanRow } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Integrity, Read } from '../read/index.js';

/** What has to be known of a machine's last good read. A {@link Read} is one; an outline of it takes less memory. */
export interface LastGoodRead {
  readonly clock: LocalDateTime | null;
  readonly columns: readonly { readonly id: string }[];
  readonly has: (id: SegmentId) => boolean;
  /** How its integrity value fitted; where it is not kept, it bears no variant out. */
  readonly integrity?: Pick<Integrity, 'variants'>;
}

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
  /** Its name as it was said, also where the roster has no such machine. */
  readonly saidName: string | null;
  readonly plan: (column: string) => PlanRow | null;
  readonly profile: Profile | null;
  /** The name of a profile that the roster asks for but that is not there. */
  readonly missingProfile: string | null;
  /** When the capture was received (captures list, or the file's time where the user says so). */
  readonly receivedAt: LocalDateTime | null;
  /** Whether the same read came before: then its clock was judged by that arrival. */
  readonly isLaterCopy: boolean;
  /** Signal strength as a modem reports it, 1 to 31. */
  readonly signal: number | null;
  /** How far the machine's clock may be off, in minutes. */
  readonly clockToleranceMinutes: number;
  /** The machine's last good read, to say what a cut one leaves out and what it must have. */
  readonly lastGood: LastGoodRead | null;
  /** Currency and decimals of the read's money, wherever they are known from; null when nothing says them. */
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** One check of one read. */
export interface Check {
  /** The codes of the findings it can make. */
  readonly codes: readonly FindingCode[];
  /** What it looks at, in one sentence. */
  readonly summary: string;
  /** The rule's source: a published document, `common practice` or `memory`. */
  readonly reference: string;
  readonly run: (read: Read, context: CheckContext) => readonly Finding[];
}

/** What a check gives that has nothing to say: one list for all of them. */
export const NOTHING: readonly Finding[] = [];

/** How far a machine's clock may be off before it is said, in minutes (domain rule). */
export const CLOCK_TOLERANCE_MINUTES = 10;
