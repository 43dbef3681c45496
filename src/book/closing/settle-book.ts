import type { Finding } from '../../findings/index.js';
import type { CarriedJson, ClosingJson } from '../../report/shapes/closing.js';
import type { Settlement } from '../../settlement/index.js';
import { BookError, type BookStore, type EntryToRecord } from '../store/index.js';
import { adjustmentToJson, listPending } from './closings.js';
import { type ClosedDraft, changesOf, type DayDraft, draftDay, type OpenDraft, standingsNow } from './draft-day.js';
import { type Batch, listRestsOn, makeAdjustmentEntry, makeClosingEntry, officeOf } from './make-entries.js';
import { entryInBook, planCounts, type Signature } from './plan-counts.js';
import { settlementFromJson } from './settlement-from-json.js';
import type { Standing } from './shapes.js';
import { addSums, sumStandings } from './standing.js';
import type { RoundRequest } from './work-out-round.js';

/** A settlement of a book: as it was closed, or as it is worked out while it is open. */
export interface BookRound {
  readonly settlement: Settlement;
  readonly closing: ClosingJson;
  /** As it is worked out now, with all it is worked out from; null where nothing is left of a closed one. */
  readonly worked: Settlement | null;
}

/** A day's settlements in a book, and findings that belong to none of them. */
export interface BookRounds {
  readonly rounds: readonly BookRound[];
  readonly findings: readonly Finding[];
}

/** What closing came to: how many entries of each kind were recorded. */
export interface Recorded {
  readonly counts: number;
  readonly corrections: number;
  readonly closed: number;
  readonly adjustments: number;
  /** Settlements that stay open, since no bag of theirs was counted; see {@link closeRounds}. */
  readonly leftOpen: number;
}

/**
 * Settle a day from the book, without recording anything. A settlement that is closed is given as it was closed, with what
 * is not so any more and by how much; an open one as it is worked out now.
 *
 * @throws BookError (as a rejection) when the book can not be read; RangeError when an option is out of range
 * @example const { rounds } = await settleBook(book, { day: '2026-11-24', roster });
 */
export async function settleBook(store: BookStore, request: RoundRequest): Promise<BookRounds> {
  const { closed, open, findings } = await draftDay(store, request);
  const rounds: BookRound[] = [];
  for (const draft of closed) rounds.push(await showClosed(store, draft));
  for (const draft of open) rounds.push(await showOpen(store, draft));
  return { rounds: rounds.sort(compareRounds), findings };
}

async function showClosed(store: BookStore, draft: ClosedDraft): Promise<BookRound> {
  const { closing, worked } = draft;
  const { entry, recordedAt, by, body, adjustments } = closing;
  const changed = await changesOf(store, draft, entryInBook);
  return {
    settlement: settlementFromJson(body.settlement),
    worked,
    closing: {
      closed: { entry, recordedAt, by },
      changes: changed?.changes ?? null,
      adjustments: adjustments.map(adjustmentToJson),
      carried: body.carried,
      withCarried: sumWithCarried(body.visits, body.carried),
    },
  };
}

async function showOpen(store: BookStore, draft: OpenDraft): Promise<BookRound> {
  const { settlement } = draft;
  const carried = await listPending(store, settlement);
  const withCarried = sumWithCarried(standingsNow(draft, entryInBook), carried);
  return {
    settlement,
    worked: settlement,
    closing: { closed: null, changes: null, adjustments: [], carried, withCarried },
  };
}

function sumWithCarried(visits: readonly Standing[], carried: readonly CarriedJson[]): ClosingJson['withCarried'] {
  return addSums([sumStandings(visits), ...carried]).overShort;
}

function compareRounds({ settlement: a }: BookRound, { settlement: b }: BookRound): number {
  const keyOf = ({ route, currency, decimals }: Settlement): string =>
    `${route ?? ''} ${currency ?? ''} ${decimals ?? ''}`;
  return keyOf(a) < keyOf(b) ? -1 : keyOf(a) > keyOf(b) ? 1 : 0;
}

/** How often a closing is worked out anew, because something was added to the book meanwhile. */
const ATTEMPTS = 20;

/**
 * Close a day's settlements: bags of the sheet that the book lacks, what came after earlier closings as adjustments, and one
 * entry for each settlement that is open, all of them or none. What is closed already stays as it is. Where no route is asked
 * for, a settlement of which no bag was counted stays open: its sheet is likely still to come.
 *
 * @param signature - who closes, when, and why counts are corrected, if they are
 * @param isClosing - false: only corrections are recorded
 * @throws BookError (as a rejection) `busy` when the book keeps being added to
 */
export async function closeRounds(
  store: BookStore,
  request: RoundRequest,
  signature: Signature,
  isClosing = true,
): Promise<Recorded> {
  const asked = { ...request, isCorrection: signature.reason !== null };
  let leftOpen = 0;
  const recorded = await recordWhole(store, async () => {
    const draft = await draftDay(store, asked);
    const closable = draft.open.filter(({ settlement }) => mayClose(settlement, asked));
    leftOpen = isClosing ? draft.open.length - closable.length : 0;
    const entries = await planClosing(store, { ...draft, open: closable }, asked, signature, isClosing);
    return { size: draft.size, entries };
  });
  return { ...recorded, leftOpen };
}

/** Whether its sheet has come: a round of which no bag is known is closed only where its route is named. */
function mayClose({ visits }: Settlement, { route }: RoundRequest): boolean {
  return route !== undefined || visits.some(({ counts }) => counts.length > 0);
}

async function planClosing(
  store: BookStore,
  draft: DayDraft,
  request: RoundRequest,
  signature: Signature,
  isClosing: boolean,
): Promise<EntryToRecord[]> {
  const { by, recordedAt } = signature;
  const { size } = draft;
  const { entries: counts, entryOf } = planCounts(draft, signature, isClosing);
  const entries = [...counts];
  if (!isClosing) return entries;
  const batch: Batch = { size, entries: counts };
  for (const closed of draft.closed) {
    const changed = await changesOf(store, closed, entryOf);
    if (changed === null) continue;
    const { changes, visits } = changed;
    const restsOn = await listRestsOn(store, visits, batch);
    const office = officeOf(closed.request, closed.round, closed.closing.body.settlement.route);
    const parts = { by, bookSize: size, visits, restsOn, office };
    entries.push(makeAdjustmentEntry(closed.closing, changes, parts, recordedAt));
  }
  for (const open of draft.open) {
    const visits = standingsNow(open, entryOf);
    const restsOn = await listRestsOn(store, visits, batch);
    const carried = await listPending(store, open.settlement);
    entries.push(makeClosingEntry(open, { by, bookSize: size, visits, restsOn, carried }, request, recordedAt));
  }
  return entries;
}

/**
 * Record entries that rest on a book of one size; when it has grown meanwhile, they are made anew.
 *
 * @throws BookError (as a rejection) `busy`
 */
export async function recordWhole(store: BookStore, make: () => Promise<Batch>): Promise<Omit<Recorded, 'leftOpen'>> {
  for (let attempt = 1; attempt <= ATTEMPTS; attempt++) {
    const { size, entries } = await make();
    const outcome = entries.length === 0 ? null : await store.recordEntries(entries, size);
    if (outcome?.state !== 'moved-on') return tellRecorded(entries);
  }
  throw new BookError(
    'busy',
    'The book keeps being added to. Nothing was closed: run this again when the other run is done.',
  );
}

function tellRecorded(entries: readonly EntryToRecord[]): Omit<Recorded, 'leftOpen'> {
  const count = (kind: EntryToRecord['kind']): number => entries.filter((entry) => entry.kind === kind).length;
  return {
    counts: count('count-entered'),
    corrections: count('count-corrected'),
    closed: count('settlement-closed'),
    adjustments: count('adjustment'),
  };
}
