import type { LocalDateTime } from './local-time.js';

/** What a read's time is known from, strongest first. */
export const TIME_KINDS = ['received', 'appended', 'clock'] as const;

/** See {@link TIME_KINDS}. */
export type TimeKind = (typeof TIME_KINDS)[number];

/** When a read was taken, and what that is known from. */
export interface ReadTime {
  readonly time: LocalDateTime;
  readonly kind: TimeKind;
}

/** A read, as far as it has to be known to tell when it was taken. */
export interface TimedRead {
  /** From the captures list, an option, or the file's own time where the user says that it is when it was received. */
  readonly receivedAt: LocalDateTime | null;
  readonly read: {
    /** What a reader appended to ST. */
    readonly appendedAt: LocalDateTime | null;
    /** The machine's own clock. */
    readonly clock: LocalDateTime | null;
  };
}

/**
 * The one time of a read, by which it is in days, visits, statements and tables: when it was received, else when its reader
 * says that it was taken (appended to ST), else the machine's clock (domain rule). Null when nothing says.
 *
 * The order of reads within an era is another thing: it goes by the read counters first.
 *
 * @example timeOfRead({ receivedAt: null, read: { appendedAt: '2026-11-23T09:00:00', clock: '2026-01-05T09:00:00' } })
 * // { time: '2026-11-23T09:00:00', kind: 'appended' }
 */
export function timeOfRead({ receivedAt, read }: TimedRead): ReadTime | null {
  if (receivedAt !== null) return { time: receivedAt, kind: 'received' };
  if (read.appendedAt !== null) return { time: read.appendedAt, kind: 'appended' };
  return read.clock === null ? null : { time: read.clock, kind: 'clock' };
}

/** The time of {@link timeOfRead} without its kind. */
export function bestTime(read: TimedRead): LocalDateTime | null {
  return timeOfRead(read)?.time ?? null;
}
