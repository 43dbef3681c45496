import type { CountRow, LocalDateTime } from '../model/index.js';
import type { VisitMatch } from './match-visit.js';
import type { VisitRead } from './visit-read.js';

/** A collection of one machine's cash: a bag with its capture, a bag without one, or a service read without a bag. */
export interface Collection {
  /** The bags: more than one when several rows of the sheet claim the same capture; none for a service read without a bag. */
  readonly counts: readonly CountRow[];
  readonly match: VisitMatch;
  /** The usable capture in the machine's order; -1 when there is none. */
  readonly position: number;
  /** The collection before it, as its place in the machine's order; -1 when there is none. */
  readonly opening: number;
  /** Up to which read the money is known: the capture's own place, or that of the last read before the visit. */
  readonly known: number;
  /** How many usable captures since the opening may have been collections too, since nothing says why they were taken. */
  readonly unclearReads: number;
  /**
   * Other bags collected since the opening that have no usable capture of their own: they are settled on this one, or,
   * where it has no usable capture either, lie in what is known up to it.
   */
  readonly joined: readonly CountRow[];
  /** Faulty captures of visits since the opening whose bags are not among the counts: money may be in those. */
  readonly unknownBags: readonly VisitRead[];
  /** Whether the times of the visits say another order than the machine's counters. */
  readonly isOrderUnclear: boolean;
  /** Bags of which it cannot be told whether they belong to this collection, or to one before or after it. */
  readonly looseBags: readonly CountRow[];
  /** Rows that claim the capture counted from together: one of them may have been collected since. */
  readonly rivals: readonly CountRow[];
  /** The later bag that this one is settled with, where it has no usable capture; `next`: one there is not yet. */
  readonly settledWith: CountRow | 'next' | null;
}

/** The moment of a visit; one that is known by its date alone is taken at noon, away from other days' edges. */
export function momentOfCount({ visitedAt }: CountRow): LocalDateTime {
  return `${visitedAt.date}T${visitedAt.time ?? '12:00:00'}`;
}

/** When a visit was, as the sheet gives it: a date, or a date and time. */
export function visitedAtOf({ visitedAt }: CountRow): string {
  return visitedAt.time === null ? visitedAt.date : `${visitedAt.date}T${visitedAt.time}`;
}
