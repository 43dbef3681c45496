import type { CountRow, LocalDate, UnusableCount } from '../../model/index.js';
import type { BookStore, Entry, EntryKind } from '../store/index.js';
import {
  type CountBody,
  correctionBodySchema,
  countBodySchema,
  type UnusableBody,
  unusableBodySchema,
  withdrawalBodySchema,
} from './count-shapes.js';
import { readBody } from './read-body.js';

/** A bag that is in the book as it holds now, corrections included. */
export interface BookCount {
  /** The entry that holds: that of the count, or of its last correction. */
  readonly entry: number;
  readonly body: CountBody;
}

/** A row that could not be used, and that nothing has put right yet. */
export interface BookUnusable {
  readonly entry: number;
  /** The day that the sheet was given for, where the row's own cannot be read. */
  readonly day: LocalDate | null;
  readonly body: UnusableBody;
}

/** All that was ever said of one bag: how it was entered first, and what was made of it. */
export interface CountHistory {
  /** The entry by which it came in. */
  readonly first: number;
  /** The last entry about it. */
  readonly entry: number;
  readonly kind: CountKind;
  /** What holds; of one that was taken out what held before, and null where it never was a count. */
  readonly body: CountBody | null;
  /** What could be read of it, where it came in as a row that could not be used. */
  readonly unusable: UnusableBody | null;
  readonly day: LocalDate | null;
  /** What it was and is, the last one last. */
  readonly versions: readonly CountBody[];
}

/** Kinds of entries that tell of counts. */
export const COUNT_KINDS = [
  'count-entered',
  'count-unusable',
  'count-corrected',
  'count-withdrawn',
] as const satisfies readonly EntryKind[];
type CountKind = (typeof COUNT_KINDS)[number];

/** Which counts; what is not given does not matter. */
export interface CountQuery {
  readonly machine?: string;
  readonly dayFrom?: LocalDate;
  readonly dayTo?: LocalDate;
}

/**
 * What a bag is told from others by. One that has a label is one bag by machine, day and label, so that another time of day or
 * another sheet does not make a second one of it; one without by machine and visit.
 */
export function nameOfCount({ machine, visitedAt, bag }: Pick<CountRow, 'machine' | 'visitedAt' | 'bag'>): string {
  const visit = bag === null ? [visitedAt.date, visitedAt.time] : [visitedAt.date, 'bag', bag];
  return JSON.stringify([machine, ...visit]);
}

/** The subject of a machine's counts; null where no machine can be read. */
export const subjectOfCount = (machine: string | null): string | null =>
  machine === null ? null : `machine ${machine}`;

/** The bags in the book as they hold now, by the order in which they came in. */
export async function loadCounts(store: BookStore, query: CountQuery = {}): Promise<BookCount[]> {
  const histories = await loadHistories(store, query);
  return histories.filter(isHeld).filter(({ body }) => isAskedFor(body, query));
}

/** Whether a bag counts now: it was neither taken out nor is it a row that could not be used. */
export const isHeld = (history: CountHistory): history is CountHistory & BookCount =>
  history.body !== null && history.kind !== 'count-withdrawn';

function isAskedFor(
  { machine, visitedAt: { date } }: CountBody,
  { machine: asked, dayFrom, dayTo }: CountQuery,
): boolean {
  return (
    (asked === undefined || machine === asked) &&
    (dayFrom === undefined || date >= dayFrom) &&
    (dayTo === undefined || date <= dayTo)
  );
}

/** Rows that could not be used, of sheets of a day, that are not put right. */
export async function loadUnusable(store: BookStore, day: LocalDate): Promise<BookUnusable[]> {
  const histories = await loadHistories(store, { dayFrom: day, dayTo: day });
  const counts = histories.filter(isHeld);
  return histories.flatMap(({ entry, kind, unusable: body, day: own }) => {
    if (kind !== 'count-unusable' || body === null || own !== day) return [];
    return counts.some((count) => isPutRight(body, entry, count)) ? [] : [{ entry, day: own, body }];
  });
}

/** Whether a bag is what a row was meant to be: the row was mended in its sheet, or the bag is known by its label. */
function isPutRight({ machine, bag, visitedAt, place }: UnusableBody, entry: number, count: BookCount): boolean {
  const { body } = count;
  if (count.entry > entry && body.place.file === place.file && body.place.row === place.row) return true;
  return bag !== null && body.bag === bag && body.machine === machine && body.visitedAt.date === visitedAt?.date;
}

/** The histories of all bags of which an entry is of the machine or the days asked for, by the order in which they came in. */
export async function loadHistories(store: BookStore, query: CountQuery = {}): Promise<CountHistory[]> {
  const { machine, ...days } = query;
  const subject = machine === undefined ? {} : { subject: subjectOfCount(machine)! };
  const histories = new Map<number, CountHistory>();
  const seen = new Set<number>();
  for await (const entry of store.entries({ ...subject, ...days, kinds: COUNT_KINDS })) {
    if (seen.has(entry.seq)) continue;
    const first = await findFirst(store, entry);
    const chain = first === null ? [] : await followFrom(store, first);
    for (const { seq } of chain) seen.add(seq);
    if (first !== null) histories.set(first.seq, tellHistory(chain));
  }
  return [...histories.values()].sort((a, b) => a.first - b.first);
}

/** The history that an entry belongs to; null where the entry is not about a count. */
export async function findHistory(store: BookStore, seq: number): Promise<CountHistory | null> {
  const entry = await store.entry(seq);
  if (entry === null || !isCountKind(entry.kind)) return null;
  const first = await findFirst(store, entry);
  return first === null ? null : tellHistory(await followFrom(store, first));
}

const isCountKind = (kind: EntryKind): kind is CountKind => (COUNT_KINDS as readonly EntryKind[]).includes(kind);

async function findFirst(store: BookStore, entry: Entry): Promise<Entry | null> {
  let first: Entry | null = entry;
  while (first?.refersTo != null) first = await store.entry(first.refersTo);
  return first;
}

/** An entry and what corrects it or takes it out, one after the other. */
async function followFrom(store: BookStore, first: Entry): Promise<Entry[]> {
  const chain = [first];
  for (let last: Entry | null = first; last !== null; ) {
    const after: Entry | null = await nextOf(store, last);
    if (after !== null) chain.push(after);
    last = after;
  }
  return chain;
}

async function nextOf(store: BookStore, { seq }: Entry): Promise<Entry | null> {
  for await (const entry of store.entries({ refersTo: seq, kinds: ['count-corrected', 'count-withdrawn'] }))
    return entry;
  return null;
}

function tellHistory(chain: readonly Entry[]): CountHistory {
  const [first] = chain;
  const last = chain.at(-1)!;
  const bodies = chain.map(bodyOf).filter((body) => body !== null);
  return {
    first: first!.seq,
    entry: last.seq,
    kind: last.kind as CountKind,
    body: bodies.at(-1) ?? null,
    unusable: first!.kind === 'count-unusable' ? readBody(unusableBodySchema, first!) : null,
    day: first!.day,
    versions: bodies,
  };
}

/** The count that an entry says; null for one that says of none. */
function bodyOf(entry: Entry): CountBody | null {
  switch (entry.kind) {
    case 'count-entered':
      return readBody(countBodySchema, entry);
    case 'count-corrected':
      return readBody(correctionBodySchema, entry).now;
    case 'count-withdrawn':
      return readBody(withdrawalBodySchema, entry).was;
    default:
      return null;
  }
}

/**
 * A bag of the book as a row of a sheet. Its place names the entry, so that it is not taken for a row of today's sheet.
 *
 * @param isRecorded - false for one that is only planned: then it is a row of today's sheet
 */
export function toRow({ entry, body }: BookCount, isRecorded = true): CountRow {
  const { denominations, captureEntry: _, currency: __, decimals: ___, by: ____, place, ...row } = body;
  return {
    ...row,
    corrects: null,
    denominations: new Map(denominations),
    place: isRecorded ? { file: `${place.file} (entry ${entry})`, row: place.row } : place,
  };
}

/** A row of the book that could not be used as a round takes it. */
export function toUnusable({ entry, day, body }: BookUnusable): UnusableCount {
  const { by: _, place, visitedAt, ...row } = body;
  const when = visitedAt ?? (day === null ? null : { date: day, time: null });
  return { ...row, visitedAt: when, place: { file: `${place.file} (entry ${entry})`, row: place.row } };
}

/** The day of the count that an entry is about, as it holds now; null where the entry is about none. */
export async function dayOfCount(store: BookStore, entry: number): Promise<LocalDate | null> {
  const history = await findHistory(store, entry);
  return history?.body?.visitedAt.date ?? history?.day ?? null;
}
