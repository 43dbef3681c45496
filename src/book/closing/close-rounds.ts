import type { Finding } from '../../findings/index.js';
import type { LocalDate } from '../../model/index.js';
import type { Settlement } from '../../settlement/index.js';
import type { BookStore, EntryKind, EntryToRecord } from '../store/index.js';
import { adjustDay } from './adjust-rounds.js';
import { findTaker, listOpenParts, makeCarriedEntry } from './carrying.js';
import type { Closing } from './closings.js';
import { draftDay, type OpenDraft, standingsNow } from './draft-day.js';
import { isFirstRound, listInTheWay } from './in-the-way.js';
import { howOf, listRestsOn, makeClosingEntry, officeOf } from './make-entries.js';
import { planCounts, type Signature } from './plan-counts.js';
import type { PlannedBook } from './planned-book.js';
import { adjustConcerned, listAdjusted, type RecordedAdjustment } from './record-adjustments.js';
import { recordWhole } from './record-whole.js';
import { type BookRequest, roundOf, takerOf } from './settle-book.js';
import type { RoundRequest } from './work-out-round.js';

/** A round that was not closed, and why. */
export interface NotClosed {
  readonly route: string | null;
  readonly day: LocalDate;
  readonly currency: string | null;
  /** What is in the way, a sentence each. */
  readonly inTheWay: readonly string[];
}

/** What recording came to: how many entries of each kind. */
export interface Recorded {
  readonly counts: number;
  readonly unusable: number;
  readonly corrections: number;
  readonly withdrawals: number;
  readonly closed: number;
  readonly adjustments: number;
  /** Parts of adjustments that closings took over. */
  readonly carried: number;
  /** Settlements that stay open, since no bag of theirs was counted: their sheet is likely still to come. */
  readonly leftOpen: number;
  /** Settlements that have nothing to close yet; see `isFirstRound`. */
  readonly first: number;
  readonly notClosed: readonly NotClosed[];
  /** Why nothing was recorded; empty where it was. */
  readonly refusals: readonly Finding[];
  readonly findings: readonly Finding[];
  readonly adjusted: readonly RecordedAdjustment[];
}

/** What is to be done besides recording what the sheet says. */
export interface ClosingWork {
  /** Whether the day's open settlements are closed. Default yes. */
  readonly isClosing?: boolean;
  /** Whether rows take the place of the bags that they name. Default: where a reason is given and no entry is named. */
  readonly isCorrection?: boolean;
  /** Why they are closed though something is in the way; null: then they are not. */
  readonly anyway?: string | null;
}

/**
 * Record what a sheet says of counts, what that and whatever came earlier changes of closed rounds, and close the day's
 * settlements that are open: all of it or nothing. What is closed already stays as it is.
 *
 * A settlement is not closed where something is in the way (see `listInTheWay`); the others of the day are.
 *
 * @param signature - who records, when, and why counts are corrected, if they are
 * @throws BookError (as a rejection) `busy` when the book keeps being added to; RangeError when it is closed by nobody
 */
export async function closeRounds(
  store: BookStore,
  request: BookRequest,
  signature: Signature,
  work: ClosingWork = {},
): Promise<Recorded> {
  if (work.isClosing !== false && signature.by === null) throw new RangeError('a round is closed by somebody');
  return recordWhole(store, (book) => planAll(book, request, signature, work));
}

async function planAll(
  book: PlannedBook,
  request: BookRequest,
  signature: Signature,
  { isClosing = true, isCorrection, anyway = null }: ClosingWork,
): Promise<Recorded> {
  const { sheet = null, corrects = null, withdraw = null, day } = request;
  const isByName = isCorrection ?? (signature.reason !== null && corrects === null && withdraw === null);
  const work = { sheet, day, roster: request.roster, isCorrection: isByName, corrects, withdraw };
  const plan = await planCounts(book, work, signature);
  if (plan.refusals.length > 0) return tellRecorded([], { ...NOTHING, ...plan });
  const asked: RoundRequest = { ...roundOf(request), plannedFrom: book.size };
  const by = { by: signature.by, recordedAt: signature.recordedAt, isKept: true };
  const isOfRoute = ({ body }: Closing): boolean => asked.route === undefined || body.settlement.route === asked.route;
  if (isClosing) await adjustDay(book, asked, isOfRoute, by);
  const { around: _, route: __, ...anyDay } = asked;
  await adjustConcerned(book, book.size, anyDay, by);
  const closing = isClosing ? await planClosings(book, asked, signature, anyway) : NOTHING;
  const adjusted = await listAdjusted(book);
  return tellRecorded(book.entries, { ...plan, ...closing, adjusted });
}

const NOTHING = { leftOpen: 0, first: 0, notClosed: [], adjusted: [] };

async function planClosings(
  book: PlannedBook,
  request: RoundRequest,
  { by, recordedAt }: Signature,
  anyway: string | null,
): Promise<Pick<Recorded, 'leftOpen' | 'first' | 'notClosed'>> {
  const { open, unusable } = await draftDay(book, request);
  const closable: (OpenDraft & { readonly inTheWay: readonly string[] })[] = [];
  const notClosed: NotClosed[] = [];
  let [leftOpen, first] = [0, 0];
  for (const draft of open) {
    const { settlement } = draft;
    const inTheWay = listInTheWay(settlement, unusable, request.roster);
    if (inTheWay.length === 0 || anyway !== null) closable.push({ ...draft, inTheWay });
    else if (settlement.totals.settledVisits === 0 && isFirstRound(settlement)) first++;
    else if (isSheetToCome(settlement, request)) leftOpen++;
    else notClosed.push({ ...nameOf(settlement), inTheWay });
  }
  const closed: (ReturnType<typeof takerOf> & { readonly entry: number })[] = [];
  for (const { settlement, round, inTheWay } of closable) {
    const visits = standingsNow(settlement, round);
    const entry = book.next;
    const parts = {
      by: by!,
      anyway: inTheWay.length === 0 ? null : { reason: anyway!, inTheWay: [...inTheWay] },
      bookSize: book.size,
      how: howOf(request),
      office: officeOf(request, round, settlement.route),
      visits,
      restsOn: await listRestsOn(book.store, visits),
    };
    book.add(makeClosingEntry(settlement, parts, recordedAt));
    closed.push({ ...takerOf(settlement), entry });
  }
  for (const part of closed.length === 0 ? [] : await listOpenParts(book.store)) {
    const taker = findTaker(part, closed);
    if (taker !== null) book.add(makeCarriedEntry(part, taker, recordedAt));
  }
  return { leftOpen, first, notClosed };
}

/** Whether no bag of a round is known, and its route was not named. */
function isSheetToCome({ visits }: Settlement, { route }: RoundRequest): boolean {
  const isUncounted = visits.every(({ counts, findings }) => counts.length === 0 && !findings.some(isOfRow));
  return route === undefined && isUncounted;
}

const isOfRow = ({ code }: Finding): boolean => code === 'bad-row';

function nameOf({ route, day, currency }: Settlement): Pick<NotClosed, 'route' | 'day' | 'currency'> {
  return { route, day, currency };
}

function tellRecorded(
  entries: readonly EntryToRecord[],
  rest: Pick<Recorded, 'leftOpen' | 'first' | 'notClosed' | 'refusals' | 'findings' | 'adjusted'>,
): Recorded {
  const count = (kind: EntryKind): number => entries.filter((entry) => entry.kind === kind).length;
  return {
    counts: count('count-entered'),
    unusable: count('count-unusable'),
    corrections: count('count-corrected'),
    withdrawals: count('count-withdrawn'),
    closed: count('settlement-closed'),
    adjustments: count('adjustment'),
    carried: count('adjustment-carried'),
    ...rest,
  };
}
