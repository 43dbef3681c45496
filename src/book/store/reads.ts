import type { Verdict } from '../../checks/index.js';
import type { CaptureReason, LocalDateTime } from '../../model/index.js';

/** A read: the entry of the file it came in, and its number in that file, from 0. */
export interface ReadKey {
  readonly entry: number;
  readonly number: number;
}

/** What a read says of itself. Recorded with its entry, and covered by the entry's hash. */
export interface RecordedRead {
  readonly number: number;
  readonly asset: string | null;
  readonly serial: string | null;
  /** Serial number of the control board. */
  readonly board: string | null;
  readonly clock: LocalDateTime | null;
  /** SHA-256 of the read's content, lower-case hex: the same for equal reads, whatever file they came in. */
  readonly content: string;
}

/** What is known of a read from outside. Worked out, and worked out anew when the office knows more. */
export interface KnownOfRead {
  /** The key by which a machine's reads belong together; null when the read can not be told from those of others. */
  readonly machine: string | null;
  readonly receivedAt: LocalDateTime | null;
  readonly reason: CaptureReason | null;
  readonly bag: string | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly verdict: Verdict;
  /** The time of the read, by which it is looked up. */
  readonly at: LocalDateTime | null;
  /** Digest of what all this was worked out from; null where an earlier version did. */
  readonly rests: Uint8Array | null;
  /** Whatever else shall be at hand without reading the capture again, such as findings: anything that JSON can say. */
  readonly facts: unknown;
}

/** A read, before its file has an entry. */
export interface ReadToRecord extends RecordedRead, KnownOfRead {}

/** A read's place among those of its machine. */
export interface ReadPlace {
  /** The read that this one is the same as. */
  readonly duplicateOf: ReadKey | null;
  /** Number of the era, and a number that rises within it; null where it was not worked out. */
  readonly era: number | null;
  readonly position: number | null;
}

/** What is worked out of a read, whole: what {@link BookStore.workOut} replaces. */
export interface WorkedOutRead extends ReadKey, KnownOfRead, ReadPlace {}

/** A read as it is in the book. */
export interface BookRead extends ReadKey, RecordedRead, KnownOfRead, ReadPlace {
  /** SHA-256 of the file it came in. */
  readonly sha256: string;
}

/** Part of a machine's history, by {@link BookRead.at}. */
export interface ReadWindow {
  /** First and last time, both included. */
  readonly from?: LocalDateTime;
  readonly to?: LocalDateTime;
  /** How many of the nearest reads before `from` and after `to` belong to it too. Default none. */
  readonly before?: number;
  readonly after?: number;
  /** Whether reads without any time belong to it. Default: only where neither `from` nor `to` is given. */
  readonly isUndatedIn?: boolean;
}

/** Which reads; what is not given does not matter. */
export interface ReadQuery {
  /** First entry, and the one after the last. */
  readonly entryFrom?: number;
  readonly entryTo?: number;
  /** A machine's key; null for reads that belong to no machine. */
  readonly machine?: string | null;
  /** First and last time, both included; reads without a time are left out. */
  readonly atFrom?: LocalDateTime;
  readonly atTo?: LocalDateTime;
  readonly verdict?: Verdict;
  readonly content?: string;
  /** Whether the read is the same as an earlier one. */
  readonly isDuplicate?: boolean;
  /** Whether its place among those of its machine is known; it is not of one that is not worked out yet. */
  readonly isPlaced?: boolean;
  /** `recorded` (default): by entry; `machine`: by machine, then time. */
  readonly order?: 'recorded' | 'machine';
}

/** Which reads may be a machine's last. */
export interface LastReadQuery {
  /** Latest time, included. */
  readonly atTo?: LocalDateTime;
  readonly reason?: CaptureReason;
  readonly verdicts?: readonly Verdict[];
}
