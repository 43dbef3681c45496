import { type CountRow, keyOfName, type LocalDate } from '../../model/index.js';
import type { BookStore, Entry, EntryToRecord } from '../store/index.js';
import { readBody, toBody } from './read-body.js';
import { type CountBody, correctionBodySchema, countBodySchema } from './shapes.js';

/** A bag that is in the book as it holds now, corrections included. */
export interface BookCount {
  /** The entry that holds: that of the count, or of its last correction. */
  readonly entry: number;
  /** The entry by which the bag was first entered: by this it is the same bag, however often corrected. */
  readonly first: number;
  readonly key: string;
  readonly body: CountBody;
}

/** Who records, and when. */
export interface Signed {
  readonly by: string | null;
  /** An instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
}

/**
 * The keys under which rows of a sheet are entered. A bag that has a name is one bag by machine, day and name, so that
 * another time of day or another sheet does not make a second one of it; one without by machine and visit. Rows of one
 * sheet that are the same in that are told apart by their order.
 */
export function keysOfRows(rows: readonly CountRow[]): string[] {
  const seen = new Map<string, number>();
  return rows.map(({ machine, visitedAt, bag }) => {
    const visit = bag === null ? [visitedAt.date, visitedAt.time] : [visitedAt.date, 'bag', bag];
    const name = JSON.stringify([machine, ...visit]);
    const number = (seen.get(name) ?? 0) + 1;
    seen.set(name, number);
    return number === 1 ? `count ${name}` : `count ${name} ${number}`;
  });
}

/** The subject of a machine's counts: the key of the name that the sheet has, whoever knows it. */
export const subjectOfCount = (machine: string): string => keyOfName(machine);

/** The bags in the book, by the order in which they were entered. */
export async function loadCounts(
  store: BookStore,
  query: { readonly machine?: string; readonly dayFrom?: LocalDate; readonly dayTo?: LocalDate } = {},
): Promise<BookCount[]> {
  const { machine, ...days } = query;
  const subject = machine === undefined ? {} : { subject: subjectOfCount(machine) };
  const counts = new Map<number, BookCount>();
  const firstOf = new Map<number, number>();
  for await (const entry of store.entries({ ...subject, ...days, kinds: ['count-entered', 'count-corrected'] })) {
    const first = entry.kind === 'count-entered' ? entry.seq : firstOf.get(entry.refersTo ?? -1);
    if (first === undefined) continue;
    firstOf.set(entry.seq, first);
    const key = counts.get(first)?.key ?? entry.key ?? '';
    counts.set(first, { entry: entry.seq, first, key, body: bodyOf(entry) });
  }
  return [...counts.values()];
}

const bodyOf = (entry: Entry): CountBody =>
  entry.kind === 'count-entered' ? readBody(countBodySchema, entry) : readBody(correctionBodySchema, entry).now;

/** A bag of the book as a row of a sheet. Its place names the entry, so that it is not taken for a row of today's sheet. */
export function toRow({ entry, body }: BookCount): CountRow {
  const { denominations, captureEntry: _, currency: __, decimals: ___, by: ____, place, ...row } = body;
  return {
    ...row,
    denominations: new Map(denominations),
    place: { file: `${place.file} (entry ${entry})`, row: place.row },
  };
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

/** The entry that corrects a count. Its key lets each be corrected once: what corrects it again refers to the correction. */
export function makeCorrectionEntry(
  old: BookCount,
  now: CountBody,
  { reason, by, recordedAt }: { readonly reason: string; readonly by: string; readonly recordedAt: string },
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
