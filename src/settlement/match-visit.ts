import { type CountRow, type LocalDate, smallestOf } from '../model/index.js';
import { isDailyRead } from './daily-read.js';
import type { MachineReads } from './machine-reads.js';
import type { ReadIndex } from './read-index.js';
import { isSameVisit } from './same-visit.js';
import { lastOfEachFile } from './service-of-file.js';
import type { MatchedBy } from './settlement.js';
import { minuteOf, type VisitRead } from './visit-read.js';

/** The capture a bag belongs to, and how that was found; no capture where none fits or two fit equally well. */
export interface VisitMatch {
  readonly read: VisitRead | null;
  readonly matchedBy: MatchedBy | null;
  /** Captures that fit equally well: nobody guesses. */
  readonly candidates: readonly VisitRead[];
  /** Captures of its date that were not taken for its own: by their hour they are of those taken every day. */
  readonly passedOver: readonly VisitRead[];
  /** Whether the sheet gives a time, and the capture was found by the date alone. */
  readonly isOutsideWindow: boolean;
}

/** Reads that other bags claim: what fits a bag less well does not fit it equally well. */
export interface Claims {
  readonly byBag: ReadonlySet<VisitRead>;
  readonly byBagOrTime: ReadonlySet<VisitRead>;
  /** The dates of all bags of the machine; null where these are not known. */
  readonly dates: ReadonlySet<LocalDate> | null;
}

/** No capture at all. */
export const NO_MATCH: VisitMatch = {
  read: null,
  matchedBy: null,
  candidates: [],
  passedOver: [],
  isOutsideWindow: false,
};

const NO_CLAIMS: Claims = { byBag: new Set(), byBagOrTime: new Set(), dates: null };

/** Reads that fit a bag, and by what. */
interface Fit {
  readonly by: MatchedBy;
  readonly reads: readonly VisitRead[];
  readonly isOutsideWindow: boolean;
}

const STRENGTH: Readonly<Record<MatchedBy, number>> = { bag: 2, time: 1, date: 0 };

/**
 * Find the capture of a counted bag by what the count sheet gives, strongest first: bag or capture named on both; the
 * nearest capture within the window around the visit's time; the service read, or the only capture, of its date.
 * When it was counted says nothing.
 *
 * A usable capture taken beside a faulty one is the visit's: it was read again. A faulty one is the visit's where it fits
 * better than any that can be used. A read known to be no service read is no visit by its date alone, nor is one that by its
 * hour is of those taken every day; among several of a date it is one more reason to ask.
 *
 * @param claims - reads that other bags claim; among equally good ones those are left to them
 */
export function matchVisit(
  count: CountRow,
  reads: MachineReads,
  windowMinutes: number,
  claims: Claims = NO_CLAIMS,
): VisitMatch {
  const usable = findFit(count, reads.usable, windowMinutes, claims);
  const faulty = findFit(count, reads.faulty, windowMinutes, claims);
  const fit = betterFit(count, usable, faulty, reads, windowMinutes);
  return fit === null ? NO_MATCH : chooseRead(fit, reads, windowMinutes, claims);
}

function findFit(count: CountRow, index: ReadIndex, windowMinutes: number, claims: Claims): Fit | null {
  const { date, time } = count.visitedAt;
  const named = index.named(count);
  // Bags of other dates may have the same name, and a file may hold reads of several days.
  const ofDate = named.length > 1 ? named.filter((read) => read.time?.startsWith(date)) : [];
  const fitting = lastOfEachFile(ofDate.length > 0 ? ofDate : named);
  if (fitting.length > 0) return { by: 'bag', reads: fitting, isOutsideWindow: false };
  if (time === null) {
    const onDate = index.onDate(date).filter(({ isService }) => isService !== false);
    return onDate.length === 0 ? null : { by: 'date', reads: onDate, isOutsideWindow: false };
  }
  const minute = minuteOf(`${date}T${time}`);
  const near = nearestTo(minute, index.near(minute, windowMinutes));
  if (near.length > 0) return { by: 'time', reads: near, isOutsideWindow: false };
  const services = index.onDate(date).filter((read) => read.isService === true && !claims.byBagOrTime.has(read));
  return services.length === 0 ? null : { by: 'date', reads: services, isOutsideWindow: true };
}

/** Those at the smallest distance; among reads in the window a service read is the visit's, wherever others lie. */
function nearestTo(minute: number, near: readonly VisitRead[]): readonly VisitRead[] {
  const services = near.filter(({ isService }) => isService === true);
  const among = services.length > 0 ? services : near;
  const nearest = smallestOf(among.map((read) => distance(read, minute)));
  return among.filter((read) => distance(read, minute) === nearest);
}

const distance = ({ minute }: VisitRead, other: number): number => Math.abs(minute! - other);

function betterFit(
  count: CountRow,
  usable: Fit | null,
  faulty: Fit | null,
  reads: MachineReads,
  windowMinutes: number,
): Fit | null {
  if (usable?.by === 'bag' || faulty === null) return usable;
  if (usable !== null && STRENGTH[usable.by] > STRENGTH[faulty.by]) return usable;
  if (faulty.by === 'date') return joinOfDate(usable, faulty, reads, windowMinutes);
  const again = findReadAgain(faulty, reads, windowMinutes);
  if (again !== null) return again;
  if (usable === null || STRENGTH[usable.by] < STRENGTH[faulty.by]) return faulty;
  const { date, time } = count.visitedAt;
  const minute = minuteOf(`${date}T${time!}`);
  return distance(usable.reads[0]!, minute) < distance(faulty.reads[0]!, minute) ? usable : faulty;
}

/** All reads of a date that may be the visit: usable ones, and in place of each faulty one those it was followed by. */
function joinOfDate(usable: Fit | null, faulty: Fit, reads: MachineReads, windowMinutes: number): Fit {
  const found = new Set(usable?.reads ?? []);
  for (const first of faulty.reads) {
    const again = listReadAgain(first, reads, windowMinutes);
    for (const read of again.length > 0 ? again : [first]) found.add(read);
  }
  return { ...faulty, reads: [...found] };
}

/** The usable reads beside a faulty one: at the visit, the machine was read again. */
function findReadAgain(faulty: Fit, reads: MachineReads, windowMinutes: number): Fit | null {
  for (const first of faulty.reads) {
    const again = listReadAgain(first, reads, windowMinutes);
    if (again.length > 0) return { by: 'time', reads: again, isOutsideWindow: false };
  }
  return null;
}

/** The usable reads nearest to a faulty one, within the window; none that is known to be no service read. */
function listReadAgain({ minute }: VisitRead, reads: MachineReads, windowMinutes: number): readonly VisitRead[] {
  if (minute === null) return [];
  const beside = reads.usable.near(minute, windowMinutes).filter(({ isService }) => isService !== false);
  return beside.length === 0 ? [] : nearestTo(minute, beside);
}

/** The one there is, or the one that stands out; else all of them, for a person to decide. */
function chooseRead(fit: Fit, reads: MachineReads, windowMinutes: number, claims: Claims): VisitMatch {
  const services = fit.reads.filter(({ isService }) => isService === true);
  const best = services.length > 0 ? services : fit.reads;
  const claimed = fit.by === 'bag' ? NO_CLAIMS.byBag : fit.by === 'time' ? claims.byBag : claims.byBagOrTime;
  const free = best.filter((read) => !claimed.has(read));
  const pool = free.length > 0 ? free : best;
  const { dates } = claims;
  if (fit.by === 'date' && dates !== null && pool.every((read) => isDailyRead(read, reads, dates))) {
    return { ...NO_MATCH, passedOver: pool };
  }
  const last = pool.at(-1)!;
  if (pool.length > 1 && !pool.every((read) => read === last || isSameVisit(read, last, reads, windowMinutes))) {
    return { ...NO_MATCH, candidates: pool };
  }
  return { ...NO_MATCH, read: last, matchedBy: fit.by, isOutsideWindow: fit.isOutsideWindow };
}
