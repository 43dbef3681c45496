import { type Finding, makeFinding } from '../findings/index.js';
import { bestTime, type TakenRead } from '../interval/index.js';
import { type CountRow, minutesBetween } from '../model/index.js';
import { baseName } from '../sheets/index.js';
import type { MachineReads } from './machine-reads.js';
import { isServiceRead } from './service-read.js';
import type { MatchedBy } from './settlement.js';

/** The capture a bag belongs to, and how that was found; no capture where none fits or two fit equally well. */
export interface VisitMatch {
  readonly read: TakenRead | null;
  readonly matchedBy: MatchedBy | null;
  /** Captures that fit equally well: nobody guesses. */
  readonly candidates: readonly TakenRead[];
  readonly findings: readonly Finding[];
}

/**
 * Find the capture of a counted bag by what the count sheet gives, strongest first: bag or capture named on both; the
 * nearest capture within the window around the visit's time; the service read, or the only capture, of its date.
 * When it was counted says nothing. Usable captures come first; a faulty one is taken where there is no other.
 */
export function matchVisit(count: CountRow, reads: MachineReads, windowMinutes: number): VisitMatch {
  const usable = matchAmong(count, reads.ordered, reads, windowMinutes);
  if (usable.read !== null || usable.candidates.length > 0) return usable;
  return matchAmong(count, reads.faulty, reads, windowMinutes);
}

function matchAmong(
  count: CountRow,
  among: readonly TakenRead[],
  reads: MachineReads,
  windowMinutes: number,
): VisitMatch {
  const named = among.filter((taken) => isNamed(count, taken));
  if (named.length > 0) return choose(named, 'bag', reads);
  const { date, time } = count.visitedAt;
  if (time !== null) {
    const at = `${date}T${time}`;
    const near = among.filter((taken) => distance(taken, at) <= windowMinutes);
    if (near.length > 0) return choose(nearestFirst(near, at, reads), 'time', reads);
  }
  const sameDay = among.filter((taken) => bestTime(taken)?.slice(0, 10) === date);
  if (time === null) return sameDay.length === 0 ? NO_MATCH : choose(sameDay, 'date', reads);
  const services = sameDay.filter((taken) => isServiceRead(taken, reads));
  if (services.length !== 1) return NO_MATCH;
  const when = bestTime(services[0]!)!.slice(11, 16);
  const message = `No capture lies within ${windowMinutes} minutes of the visit at ${time.slice(0, 5)}; the one service read of that date, ${when}, was taken.`;
  return {
    read: services[0]!,
    matchedBy: 'date',
    candidates: [],
    findings: [makeFinding('match-by-date', message, { file: count.place.file, row: count.place.row })],
  };
}

const NO_MATCH: VisitMatch = { read: null, matchedBy: null, candidates: [], findings: [] };

function isNamed(count: CountRow, taken: TakenRead): boolean {
  if (count.capture !== null && baseName(count.capture) === baseName(taken.file)) return true;
  return count.bag !== null && taken.bag !== null && count.bag === taken.bag;
}

/** Those at the smallest distance; among captures in the window a service read is the visit's, wherever others lie. */
function nearestFirst(near: readonly TakenRead[], at: string, reads: MachineReads): readonly TakenRead[] {
  const services = near.filter((taken) => isServiceRead(taken, reads));
  const among = services.length > 0 ? services : near;
  const nearest = Math.min(...among.map((taken) => distance(taken, at)));
  return among.filter((taken) => distance(taken, at) === nearest);
}

function distance(taken: TakenRead, at: string): number {
  const time = bestTime(taken);
  return time === null ? Number.POSITIVE_INFINITY : Math.abs(minutesBetween(time, at));
}

/** The one there is, or the one service read among several; else all of them, for a person to decide. */
function choose(candidates: readonly TakenRead[], matchedBy: MatchedBy, reads: MachineReads): VisitMatch {
  const services = candidates.filter((taken) => isServiceRead(taken, reads));
  const best = candidates.length === 1 ? candidates : services;
  if (best.length === 1) return { read: best[0]!, matchedBy, candidates: [], findings: [] };
  return { read: null, matchedBy: null, candidates, findings: [] };
}
