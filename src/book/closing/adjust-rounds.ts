import type { ChangeJson, DriverPartJson } from '../../report/shapes/closing.js';
import { type Settlement, sumVisits } from '../../settlement/index.js';
import type { BookStore } from '../store/index.js';
import { listBecause } from './because.js';
import { type Closing, closingsOf, recordedState } from './closings.js';
import { type ClosedDraft, reworkClosing, standingsNow, withDayFacts } from './draft-day.js';
import { listRestsOn, makeAdjustmentEntry, officeOf } from './make-entries.js';
import type { PlannedBook } from './planned-book.js';
import type { AdjustmentBody, Because, Standing } from './shapes.js';
import { comparePerDriver, compareStanding, compareTotals, pairVisits } from './standing.js';
import type { RoundRequest } from './work-out-round.js';

/** What is not as it was closed and adjusted. */
export interface RoundChanges {
  readonly overShort: number;
  readonly changes: readonly ChangeJson[];
  readonly byDriver: readonly DriverPartJson[];
  readonly because: readonly Because[];
  readonly visits: readonly Standing[];
  readonly totals: Settlement['totals'];
  readonly drivers: Settlement['drivers'];
}

/** Who adjusts, and when. */
export interface AdjustedBy {
  readonly by: string | null;
  readonly recordedAt: string;
  /** Whether what is planned will be recorded: what it is because of is then told as entries that are there. */
  readonly isKept: boolean;
}

/**
 * A visit moves from one closed round into another when the one has lost it; the rounds are gone through again so often at
 * most, for one that comes earlier.
 */
const PASSES = 3;

/**
 * Plan an adjustment for each closed round of a day that would come out otherwise by now, what is planned included.
 *
 * @param isConcerned - which of the day's closings are looked at
 */
export async function adjustDay(
  book: PlannedBook,
  request: RoundRequest,
  isConcerned: (closing: Closing) => boolean,
  { by, recordedAt, isKept }: AdjustedBy,
): Promise<void> {
  const { store, size } = book;
  let closings = await closingsOf(store, { day: request.day });
  if (!closings.some(isConcerned)) return;
  const how = { asked: request, request: await withDayFacts(store, request) };
  for (let pass = 0; pass < PASSES; pass++) {
    const before = book.next;
    for (const { entry } of closings.filter(isConcerned)) {
      const closing = closings.find((each) => each.entry === entry)!;
      const draft = await reworkClosing(book, closing, closings, how);
      const changed = await changesOf(store, draft, isKept ? Number.POSITIVE_INFINITY : size);
      if (changed === null) continue;
      const body = await bodyOf(store, draft, changed, { by, bookSize: size });
      book.add(makeAdjustmentEntry(closing, body, recordedAt));
      closings = await closingsOf(store, { day: request.day });
    }
    if (book.next === before) return;
  }
}

async function bodyOf(
  store: BookStore,
  { closing, request, round }: ClosedDraft,
  changed: RoundChanges,
  { by, bookSize }: { readonly by: string | null; readonly bookSize: number },
): Promise<Omit<AdjustmentBody, 'of'>> {
  const { overShort, changes, byDriver, because, visits, totals, drivers } = changed;
  return {
    because: [...because],
    overShort,
    changes: [...changes],
    byDriver: [...byDriver],
    by,
    bookSize,
    totals,
    drivers: [...drivers],
    visits: [...visits],
    office: officeOf(request, round, closing.body.settlement.route),
    restsOn: await listRestsOn(store, visits),
  };
}

/**
 * What is not as it was closed and adjusted; null where nothing is.
 *
 * @param plannedFrom - the first entry that is told as one that is not in the book
 */
async function changesOf(store: BookStore, draft: ClosedDraft, plannedFrom: number): Promise<RoundChanges | null> {
  const { closing, round } = draft;
  const before = recordedState(closing);
  const worked = workedOrNothing(draft);
  const visits = standingsNow(worked, round);
  const pairs = pairVisits(before.visits, visits);
  const ofVisits = pairs.flatMap(compareStanding);
  const ofTotals = compareTotals(before.totals, worked.totals);
  const changes = [...ofVisits, ...ofTotals];
  if (changes.length === 0) return null;
  const byDriver = comparePerDriver(pairs);
  const changed = pairs.filter((pair) => compareStanding(pair).length > 0);
  // Where no visit changed, and sums did: whatever came of all of them.
  const told = changed.length > 0 ? changed : pairs;
  const because = await listBecause(store, told, round, { baseline: before.bookSize, plannedFrom });
  const overShort = byDriver.reduce((sum, part) => sum + part.overShort, 0);
  const { totals, drivers } = worked;
  return { overShort, changes, byDriver, because, visits, totals, drivers };
}

/** The round as it stands; one of which nothing is left has no visits. */
export function workedOrNothing({ closing, worked }: Pick<ClosedDraft, 'closing' | 'worked'>): Settlement {
  if (worked !== null) return worked;
  const { route, day, currency, decimals } = closing.body.settlement;
  const rest = { from: null, to: null, visits: [], drivers: [], findings: [] };
  return { route, day, currency, decimals, ...rest, totals: sumVisits([]) };
}
