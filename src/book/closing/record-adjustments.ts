import { type LocalDate, moveDate } from '../../model/index.js';
import { Roster } from '../../sheets/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import { type Closing, closingsOf, standingsOf } from './closings.js';
import { changesOf, reworkClosing } from './draft-day.js';
import { readsAround } from './machine-names.js';
import { listRestsOn, makeAdjustmentEntry, officeOf } from './make-entries.js';
import { entryInBook } from './plan-counts.js';
import { recordWhole } from './settle-book.js';

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
  /** The settlement that it adjusts. */
  readonly settlement: number;
  readonly route: string | null;
  readonly day: LocalDate;
}

/**
 * Hold closed settlements against what came into the book after them, and record an adjustment for each that would come out
 * otherwise. Looked at are those of a machine of which something came, from the day before its time on. Run again, it
 * records nothing new.
 *
 * @throws BookError (as a rejection) when the book can not be read or added to
 */
export async function recordAdjustments(store: BookStore, options: AdjustOptions): Promise<RecordedAdjustment[]> {
  const { recordedAt, by = null, since = 0, roster = new Roster() } = options;
  const news = await gatherNews(store, since);
  const adjusted: RecordedAdjustment[] = [];
  if (news.earliest === null) return adjusted;
  const reach = reachOf(roster);
  const from = news.earliest === '' ? {} : { dayFrom: moveDate(news.earliest, -reach) };
  const candidates = (await closingsOf(store, from)).filter((closing) => news.concern(closing, reach));
  const days = new DayLookup(store);
  for (const { entry, body } of candidates.sort(compareDays)) {
    const { route, day } = body.settlement;
    const { adjustments } = await recordWhole(store, async () => {
      const { size } = await store.head();
      const { closings, around } = await days.of(day, size);
      const closing = closings.find((each) => each.entry === entry)!;
      const draft = await reworkClosing(store, closing, closings, { day, route, roster, around });
      const changed = await changesOf(store, draft, entryInBook);
      if (changed === null) return { size, entries: [] };
      const { changes, visits } = changed;
      const restsOn = await listRestsOn(store, visits, { size, entries: [] });
      const parts = { by, bookSize: size, visits, restsOn, office: officeOf(draft.request, draft.round, route) };
      return { size, entries: [makeAdjustmentEntry(closing, changes, parts, recordedAt())] };
    });
    if (adjustments > 0) adjusted.push({ settlement: entry, route, day });
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

function compareDays({ body: a }: Closing, { body: b }: Closing): number {
  return a.settlement.day < b.settlement.day ? -1 : a.settlement.day > b.settlement.day ? 1 : 0;
}

/** What all routes of a day need. */
interface DayFacts {
  readonly closings: readonly Closing[];
  readonly around: readonly BookRead[];
}

/** Keeps what is the same for all routes of the last day asked for. */
class DayLookup {
  readonly #store: BookStore;
  #last = '';
  #facts: DayFacts = { closings: [], around: [] };

  constructor(store: BookStore) {
    this.#store = store;
  }

  /** @param size - size of the book: when it has grown, everything is looked up again */
  async of(day: LocalDate, size: number): Promise<DayFacts> {
    const name = `${day} ${size}`;
    if (name !== this.#last) {
      this.#facts = {
        closings: await closingsOf(this.#store, { day }),
        around: await readsAround(this.#store, day),
      };
    }
    this.#last = name;
    return this.#facts;
  }
}

/** What came into the book since an entry, by machine. */
class News {
  /** The earliest day of what came of a machine, by its key; '' where it has no time. */
  readonly #earliestOf = new Map<string, LocalDate>();
  readonly #days = new Set<LocalDate>();
  /** The earliest day of all; '' where something has no time, null where nothing came. */
  earliest: LocalDate | null = null;

  add(key: string, at: string | null): void {
    const day = at?.slice(0, 10) ?? '';
    const known = this.#earliestOf.get(key);
    if (known === undefined || day < known) this.#earliestOf.set(key, day);
    if (this.earliest === null || day < this.earliest) this.earliest = day;
    this.#days.add(day);
  }

  /** Whether a closed settlement may come out otherwise for what came; see {@link reachOf}. */
  concern(closing: Closing, reach: number): boolean {
    const { office, settlement } = closing.body;
    const roster = new Roster({ machines: office.machines });
    const machines = new Set(standingsOf(closing).map(({ machine }) => machine));
    for (const machine of machines) {
      const isConcerned = roster.keysOfMachine(machine).some((key) => {
        const earliest = this.#earliestOf.get(key);
        return earliest !== undefined && (earliest === '' || moveDate(earliest, -reach) <= settlement.day);
      });
      if (isConcerned) return true;
    }
    // A machine that was not in it may have been visited on its route all the same.
    return this.#days.has(settlement.day);
  }
}

async function gatherNews(store: BookStore, since: number): Promise<News> {
  const news = new News();
  for await (const { machine, at } of store.reads({ entryFrom: since })) if (machine !== null) news.add(machine, at);
  for await (const { subject, day } of store.entries({ from: since, kinds: ['count-entered', 'count-corrected'] })) {
    if (subject !== null) news.add(subject, day);
  }
  return news;
}
