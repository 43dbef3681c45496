import type { CountRow, LocalDate, UnusableCount } from '../../model/index.js';
import type { EntryToRecord } from '../store/index.js';
import { type CountHistory, subjectOfCount } from './book-counts.js';
import type { CountBody, UnusableBody } from './count-shapes.js';
import { toBody } from './read-body.js';

/** Who says so, when, and why. */
export interface Reasoned {
  readonly by: string;
  /** An instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
  readonly reason: string;
}

/** What is recorded of a row. */
export function toCountBody(
  row: CountRow,
  known: Pick<CountBody, 'currency' | 'decimals' | 'captureEntry' | 'by'>,
): CountBody {
  const { machine, visitedAt, bag, coins, bills, route, driver, countedAt, note, paidOut, filled, floatIssued } = row;
  const { capture, place } = row;
  return {
    machine,
    visitedAt: { date: visitedAt.date, time: visitedAt.time },
    bag,
    coins,
    bills,
    route,
    driver,
    countedAt,
    note,
    paidOut,
    filled,
    floatIssued,
    denominations: [...row.denominations],
    capture,
    place: { file: place.file, row: place.row },
    ...known,
  };
}

/** The key of a bag's first entry: no other entry has it, so that no bag is entered twice. */
export function keyOfCount(name: string, number: number): string {
  return number === 1 ? `count ${name}` : `count ${name} ${number}`;
}

/** The entry of a bag that was not in the book. */
export function makeCountEntry(key: string, body: CountBody, recordedAt: string): EntryToRecord {
  const { machine, visitedAt } = body;
  return {
    kind: 'count-entered',
    recordedAt,
    subject: subjectOfCount(machine),
    day: visitedAt.date,
    key,
    body: toBody(body),
  };
}

/** The key of a row that could not be used: the same row of the same day's sheet is not recorded twice. */
export function keyOfUnusable({ place, why }: UnusableCount, day: LocalDate): string {
  return `unusable ${JSON.stringify([day, place.file, place.row, why])}`;
}

/** The entry of a row that could not be used. */
export function makeUnusableEntry(
  row: UnusableCount,
  { day, by, recordedAt }: { readonly day: LocalDate; readonly by: string | null; readonly recordedAt: string },
): EntryToRecord {
  const { machine, visitedAt, bag, route, driver, why, place } = row;
  const body: UnusableBody = {
    machine,
    visitedAt: visitedAt === null ? null : { date: visitedAt.date, time: visitedAt.time },
    bag,
    route,
    driver,
    why,
    place: { file: place.file, row: place.row },
    by,
  };
  const own = visitedAt?.date ?? day;
  return {
    kind: 'count-unusable',
    recordedAt,
    subject: subjectOfCount(machine),
    day: own,
    key: keyOfUnusable(row, own),
    body: toBody(body),
  };
}

/** The entry that corrects a count. Its key lets each be corrected once: what corrects it again refers to the correction. */
export function makeCorrectionEntry(
  old: CountHistory,
  now: CountBody,
  { reason, by, recordedAt }: Reasoned,
): EntryToRecord {
  return {
    kind: 'count-corrected',
    recordedAt,
    subject: subjectOfCount(now.machine),
    day: now.visitedAt.date,
    key: `correction of ${old.entry}`,
    refersTo: old.entry,
    body: toBody({ was: old.body, now, reason, by }),
  };
}

/** The entry that takes a count out. It has the key of a correction: nothing is both corrected and taken out. */
export function makeWithdrawalEntry(old: CountHistory, { reason, by, recordedAt }: Reasoned): EntryToRecord {
  const { machine = null, visitedAt = null } = old.body ?? old.unusable ?? {};
  return {
    kind: 'count-withdrawn',
    recordedAt,
    subject: subjectOfCount(machine),
    day: visitedAt?.date ?? old.day,
    key: `correction of ${old.entry}`,
    refersTo: old.entry,
    body: toBody({ was: old.body, reason, by }),
  };
}
