import { type LocalDate, moveDate } from '../../model/index.js';
import { Roster } from '../../sheets/index.js';
import type { BookStore } from '../store/index.js';
import { type AdjustedBy, adjustDay } from './adjust-rounds.js';
import { closingsOf } from './closings.js';
import { gatherNews } from './news.js';
import type { PlannedBook } from './planned-book.js';
import { readBody } from './read-body.js';
import { recordWhole } from './record-whole.js';
import { adjustmentPartsSchema } from './shapes.js';
import type { RoundRequest } from './work-out-round.js';

/** Options of {@link recordAdjustments}. */
export interface AdjustOptions {
  /** When: an instant in UTC. */
  readonly recordedAt: () => string;
  /** Who; null for a run by itself. */
  readonly by?: string | null;
  /** Where to begin: only what came with this entry or later is looked at. Default 0: everything. */
  readonly since?: number;
  /** What the office says of machines that no closing has. */
  readonly roster?: Roster;
}

/** An adjustment that was recorded. */
export interface RecordedAdjustment {
  /** The adjustment's entry. */
  readonly entry: number;
  /** The settlement that it adjusts. */
  readonly settlement: number;
  readonly route: string | null;
  readonly day: LocalDate;
}

/**
 * Hold closed settlements against what came into the book after them, and record an adjustment for each that would come out
 * otherwise, all or none. Looked at are those of a machine of which something came, from the day before its time on. Run
 * again, it records nothing new.
 *
 * @throws BookError (as a rejection) when the book can not be read or added to
 */
export async function recordAdjustments(store: BookStore, options: AdjustOptions): Promise<RecordedAdjustment[]> {
  const { recordedAt, by = null, since = 0, roster = new Roster() } = options;
  return recordWhole(store, async (book) => {
    await adjustConcerned(book, since, { roster }, { by, recordedAt: recordedAt(), isKept: true });
    return listAdjusted(book);
  });
}

/** Plan adjustments of the closed rounds that what came since an entry may concern, what is planned included. */
export async function adjustConcerned(
  book: PlannedBook,
  since: number,
  request: Omit<RoundRequest, 'day' | 'route' | 'around'>,
  by: AdjustedBy,
): Promise<void> {
  const news = await gatherNews(book.store, since);
  if (news.earliest === null) return;
  const reach = reachOf(request.roster);
  const from = news.earliest === '' ? {} : { dayFrom: moveDate(news.earliest, -reach) };
  const closings = (await closingsOf(book.store, from)).filter((closing) => news.concern(closing, reach));
  const concerned = new Set(closings.map(({ entry }) => entry));
  const days = new Set(closings.map(({ body }) => body.settlement.day).sort());
  for (const day of days) await adjustDay(book, { ...request, day }, ({ entry }) => concerned.has(entry), by);
}

/** The adjustments that are planned. */
export async function listAdjusted(book: PlannedBook): Promise<RecordedAdjustment[]> {
  const adjusted: RecordedAdjustment[] = [];
  for await (const entry of book.store.entries({ from: book.size, kinds: ['adjustment'] })) {
    const { of } = readBody(adjustmentPartsSchema, entry);
    adjusted.push({ entry: entry.seq, settlement: of.settlement, route: of.route, day: of.day });
  }
  return adjusted;
}

/**
 * How many days before something that came a settlement may be changed by it. A capture taken soon after midnight is the day
 * before's; on machines that clear their counters on service reads only, the next read shows which kind the last one was.
 */
function reachOf({ books }: Roster): number {
  return books.profiles.some(({ resets }) => resets === 'service-read') ? 10 : 1;
}
