import type { LocalDate } from '../../model/index.js';
import type { JsonValue } from './canonical-json.js';

/** What an entry records. */
export type EntryKind =
  | 'capture-taken' // a file with reads was taken in
  | 'set-aside' // a file in which no capture was found was kept
  | 'told' // what the roster, the captures list and options said, as far as reads are matched by it
  | 'count-entered' // a bag was counted
  | 'count-unusable' // a row of a count sheet that gave no bag
  | 'count-corrected' // a count was wrong; refers to its entry
  | 'count-withdrawn' // a count is none; refers to its entry
  | 'settlement-closed'
  | 'adjustment' // facts that came after a closing; refers to the settlement's entry
  | 'adjustment-carried'; // a driver's part of an adjustment was taken over by a later closing; refers to the adjustment

/** One entry of the book: a leaf of its tree, never changed. */
export interface Entry {
  /** Number of the entry, from 0. */
  readonly seq: number;
  readonly kind: EntryKind;
  /** When it was recorded: an instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
  /** Whom or what it is about, for finding it again, such as a machine or a route. */
  readonly subject: string | null;
  /** The day it is about. */
  readonly day: LocalDate | null;
  /** A name that no other entry has; what guards against recording one thing twice. */
  readonly key: string | null;
  /** The earlier entry that this one corrects, adjusts or takes the place of. */
  readonly refersTo: number | null;
  /** What is recorded, as canonical JSON. */
  readonly body: string;
}

/** An entry that is not of a file, before it has a number. */
export interface EntryToRecord {
  readonly kind: Exclude<EntryKind, 'capture-taken' | 'set-aside'>;
  readonly recordedAt: string;
  readonly subject?: string | null;
  readonly day?: LocalDate | null;
  readonly key?: string | null;
  readonly refersTo?: number | null;
  readonly body: JsonValue;
}

/** What became of an entry: `already` names the one that has the same key, whose body may differ. */
export interface EntryOutcome {
  readonly state: 'recorded' | 'already';
  readonly seq: number;
}

/** How much is recorded: the number of entries, and the root of their tree in lower-case hex. */
export interface BookHead {
  readonly size: number;
  readonly root: string;
}

/** What became of entries recorded together. `moved-on`: the book was no longer of the size they rest on; none was. */
export type EntriesOutcome =
  | { readonly state: 'done'; readonly entries: readonly EntryOutcome[]; readonly head: BookHead }
  | { readonly state: 'moved-on'; readonly head: BookHead };

/** Which entries; what is not given does not matter. */
export interface EntryQuery {
  /** First number, and the one after the last. */
  readonly from?: number;
  readonly to?: number;
  readonly kinds?: readonly EntryKind[];
  readonly subject?: string;
  readonly key?: string;
  readonly refersTo?: number;
  /** First and last day, both included; entries without a day are left out. */
  readonly dayFrom?: LocalDate;
  readonly dayTo?: LocalDate;
}
