import {
  bestTime,
  type CaptureListRow,
  type CaptureReason,
  currencyByAlpha,
  type LocalDate,
  type LocalDateTime,
  type MachineRow,
  type PlanRow,
} from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';
import type { MachineMatch, Roster } from '../sheets/index.js';

/** Currency and decimals to take where neither capture nor roster says them: options of the user. */
export interface MoneyDefaults {
  /** ISO 4217 alphabetic code, upper case. */
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** What is known of a capture besides its bytes. */
export interface CaptureCircumstances {
  readonly roster: Roster;
  /** What a captures list told of the file, in place of what the roster's tells; null is nothing. */
  readonly told?: ToldOfFile | null;
  readonly defaults?: MoneyDefaults;
  /** The operator's name of the machine that the capture was said to be of, by an option. */
  readonly saidMachine?: string | null;
  /** When the capture was received, by an option: stronger than the captures list. */
  readonly receivedAt?: LocalDateTime | null;
  /** The file's own time, only where the user says that it is the time received: weaker than the captures list. */
  readonly fileTime?: LocalDateTime | null;
}

/** What a read says of itself, as far as the office is asked about it. */
export type IdentifiedRead = Pick<Read, 'machine' | 'currency' | 'decimals' | 'clock' | 'appendedAt' | 'isLastOfFile'>;

/** What the captures list told of a file. */
export type ToldOfFile = Pick<CaptureListRow, 'receivedAt' | 'reason' | 'signal' | 'machine' | 'bag' | 'filled'>;

/** A read with everything the office knows of it looked up. Null is not known. */
export interface ResolvedRead {
  readonly machine: MachineRow | null;
  readonly matchedBy: MachineMatch | null;
  /** The machine it was said to be of, by option or captures list, where the roster has that one. */
  readonly saidMachine: MachineRow | null;
  /** Its name as it was said, also where the roster has no such machine. */
  readonly saidName: string | null;
  readonly profile: Profile | null;
  /** The name of a profile that the roster asks for but that is not there. */
  readonly missingProfile: string | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly receivedAt: LocalDateTime | null;
  readonly reason: CaptureReason | null;
  readonly bag: string | null;
  /** Whether the columns were filled to par when it was taken, where the captures list says. */
  readonly filled: boolean | null;
  /** Signal strength as a modem reports it, 1 to 31. */
  readonly signal: number | null;
  /** The plan in force at the read. */
  readonly plan: (column: string) => PlanRow | null;
}

const NO_DEFAULTS: MoneyDefaults = { currency: null, decimals: null };

/**
 * Look up what the office knows of a read: the one place where that is decided.
 *
 * The machine is the one of the read's asset or serial number, else the one that an option or the captures list names; a
 * file name is no evidence. Currency: ID4, else roster, else option. Decimals: profile, else ID401, else roster (its
 * decimals, or those of ISO 4217 for its currency), else option. A time received said of a file is that of its last read.
 */
export function resolveRead(file: string, read: IdentifiedRead, circumstances: CaptureCircumstances): ResolvedRead {
  const { roster, defaults = NO_DEFAULTS } = circumstances;
  const listed = circumstances.told === undefined ? roster.listed(file) : circumstances.told;
  const saidName = circumstances.saidMachine ?? listed?.machine ?? null;
  const saidMachine = saidName === null ? null : roster.machine(saidName);
  const match = roster.matchMachine(read);
  const machine = match?.machine ?? saidMachine;
  const { profile, missing: missingProfile } = roster.profile(read, machine);
  const saidAt = circumstances.receivedAt ?? listed?.receivedAt ?? circumstances.fileTime ?? null;
  // Of several reads in a file it is the time of the last (domain rule).
  const receivedAt = read.isLastOfFile ? saidAt : null;
  return {
    machine,
    matchedBy: match?.by ?? (machine === null ? null : 'list'),
    saidMachine,
    saidName,
    profile,
    missingProfile,
    currency: read.currency ?? machine?.currency ?? defaults.currency,
    decimals: profile?.decimals ?? read.decimals ?? decimalsOfMachine(machine) ?? defaults.decimals,
    receivedAt,
    reason: listed?.reason ?? null,
    bag: listed?.bag ?? null,
    filled: listed?.filled ?? null,
    signal: listed?.signal ?? null,
    plan: (column) => (machine === null ? null : roster.planned(machine.machine, column, dateOfRead(receivedAt, read))),
  };
}

function decimalsOfMachine(machine: MachineRow | null): number | null {
  return machine?.decimals ?? currencyByAlpha(machine?.currency ?? '')?.decimals ?? null;
}

function dateOfRead(receivedAt: LocalDateTime | null, read: IdentifiedRead): LocalDate | null {
  return bestTime({ receivedAt, read })?.slice(0, 10) ?? null;
}
