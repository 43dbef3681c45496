import { type LocalDate, moveDate } from '../../model/index.js';
import { Roster } from '../../sheets/index.js';
import type { BookStore, Entry } from '../store/index.js';
import { type LateRow, toldBodySchema } from '../told/index.js';
import { COUNT_KINDS, subjectOfCount } from './book-counts.js';
import { type Closing, recordedState } from './closings.js';
import { correctionBodySchema, withdrawalBodySchema } from './count-shapes.js';
import { readBody } from './read-body.js';

/** What came into the book since an entry, by machine. */
export class News {
  /** The earliest day of what came of a machine, by its key; '' where it has no time. */
  readonly #earliestOf = new Map<string, LocalDate>();
  readonly #days = new Set<LocalDate>();
  /** The earliest day of all; '' where something has no time, null where nothing came. */
  earliest: LocalDate | null = null;

  /** @param key - null where it may be any machine's of that day */
  add(key: string | null, at: string | null): void {
    const day = at?.slice(0, 10) ?? '';
    if (this.earliest === null || day < this.earliest) this.earliest = day;
    this.#days.add(day);
    if (key === null) return;
    const known = this.#earliestOf.get(key);
    if (known === undefined || day < known) this.#earliestOf.set(key, day);
  }

  /**
   * Whether a closed settlement may come out otherwise for what came.
   *
   * @param reach - how many days before something that came a settlement may be changed by it
   */
  concern(closing: Closing, reach: number): boolean {
    const { office, settlement } = closing.body;
    const roster = new Roster({ machines: office.machines });
    const machines = new Set(recordedState(closing).visits.map(({ machine }) => machine));
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

/** What came since an entry: reads, counts, and what counts were before they were corrected or taken out. */
export async function gatherNews(store: BookStore, since: number): Promise<News> {
  const news = new News();
  for await (const { machine, at } of store.reads({ entryFrom: since })) if (machine !== null) news.add(machine, at);
  for await (const { body } of store.entries({ from: since, kinds: ['told'] })) {
    for (const row of toldBodySchema.parse(JSON.parse(body)).captures) await addTold(news, store, row);
  }
  for await (const entry of store.entries({ from: since, kinds: COUNT_KINDS })) {
    news.add(entry.subject, entry.day);
    const was = readWas(entry);
    if (was !== null) news.add(subjectOfCount(was.machine), was.visitedAt.date);
  }
  return news;
}

/** A file of which something else was told: when it was, and when it is by that. */
async function addTold(news: News, store: BookStore, { entry, before }: LateRow): Promise<void> {
  for await (const { machine, at } of store.reads({ entryFrom: entry, entryTo: entry + 1 })) {
    if (machine === null) continue;
    news.add(machine, at);
    news.add(machine, before ?? null);
  }
}

function readWas(entry: Entry) {
  if (entry.kind === 'count-corrected') return readBody(correctionBodySchema, entry).was;
  return entry.kind === 'count-withdrawn' ? readBody(withdrawalBodySchema, entry).was : null;
}
