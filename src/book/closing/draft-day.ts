import type { Finding } from '../../findings/index.js';
import type { UnusableCount } from '../../model/index.js';
import type { Settlement, Visit } from '../../settlement/index.js';
import { Roster } from '../../sheets/index.js';
import type { BookStore } from '../store/index.js';
import { loadUnusable, toUnusable } from './book-counts.js';
import { type Closing, closingsOf, keyOfSettlement, recordedState } from './closings.js';
import { readsAround } from './machine-names.js';
import type { PlannedBook } from './planned-book.js';
import type { SettledOffice, Standing } from './shapes.js';
import { standingOf } from './standing.js';
import { groupRound, type RoundRequest, type WorkedRound, workOutRound } from './work-out-round.js';

/** A closed settlement, and its round as it would be worked out now. */
export interface ClosedDraft {
  readonly closing: Closing;
  readonly round: WorkedRound;
  /** What it was worked out with: what was said when it was closed. */
  readonly request: RoundRequest;
  /** The round as it stands by the book now; null where nothing is left of it. */
  readonly worked: Settlement | null;
}

/** A settlement that is open. */
export interface OpenDraft {
  readonly settlement: Settlement;
  readonly round: WorkedRound;
}

/** A day's settlements, closed ones and open ones, worked out from the book of one size. */
export interface DayDraft {
  readonly closed: readonly ClosedDraft[];
  readonly open: readonly OpenDraft[];
  /** Rows of the day that could not be used and are not put right. */
  readonly unusable: readonly UnusableCount[];
  readonly findings: readonly Finding[];
}

/** Work out a day: what is closed by what the office said then, the rest by what it says today. */
export async function draftDay(book: PlannedBook, asked: RoundRequest): Promise<DayDraft> {
  const { store } = book;
  const { day, route } = asked;
  const request = await withDayFacts(store, asked);
  const closings = await closingsOf(store, { day });
  const ofRoute = closings.filter(({ body }) => route === undefined || body.settlement.route === route);
  const closed: ClosedDraft[] = [];
  for (const closing of ofRoute) closed.push(await reworkClosing(book, closing, closings, { asked, request }));
  const round = await workOutRound(store, { ...request, roster: completeRoster(request.roster, closings) });
  const closedKeys = new Set(closings.map(({ key }) => key));
  const open = groupRound(round, (visit) => closings.some((closing) => hasVisit(closing, visit, round)))
    // A machine that was not looked at when its round was closed belongs to that round all the same.
    .filter((settlement) => !closedKeys.has(keyOfSettlement(settlement)))
    .map((settlement) => ({ settlement, round }));
  const findings = [...round.findings, ...closed.flatMap((draft) => draft.round.findings)];
  return { closed, open, unusable: request.unusable ?? [], findings: dropRepeated(findings) };
}

/** What all rounds of a day are worked out with: the reads of the days around, and rows that could not be used. */
export async function withDayFacts(store: BookStore, request: RoundRequest): Promise<RoundRequest> {
  const { day } = request;
  const unusable = (await loadUnusable(store, day)).map(toUnusable);
  return { ...request, unusable, around: request.around ?? (await readsAround(store, day)) };
}

/**
 * Work the round of a closing out anew, as it was settled then; visits that other closings have stay with those. What was
 * asked in the same way of the same book is worked out once.
 *
 * @param how - `request`: what was `asked` with the day's facts; see {@link withDayFacts}
 */
export function reworkClosing(
  book: PlannedBook,
  closing: Closing,
  closings: readonly Closing[],
  { asked, request }: { readonly asked: RoundRequest; readonly request: RoundRequest },
): Promise<ClosedDraft> {
  return book.workedFor(asked, closing.entry, () => reworkAnew(book.store, closing, closings, request));
}

async function reworkAnew(
  store: BookStore,
  closing: Closing,
  closings: readonly Closing[],
  request: RoundRequest,
): Promise<ClosedDraft> {
  const asClosed = requestAsClosed(closing, request);
  const round = await workOutRound(store, asClosed);
  const others = closings.filter((other) => other !== closing);
  const settlements = groupRound(round, (visit) => others.some((other) => hasVisit(other, visit, round)));
  const worked = settlements.find((settlement) => keyOfSettlement(settlement) === closing.key) ?? null;
  return { closing, round, request: asClosed, worked };
}

/** What is asked for now, with everything that was said when the settlement was closed. */
function requestAsClosed({ body, adjustments }: Closing, request: RoundRequest): RoundRequest {
  const { how, settlement } = body;
  const offices = officesOf({ body, adjustments });
  const { machines, plan, capturesList, profiles } = request.roster.books;
  const { tolerance, windowMinutes, ignoreHandMoves, clockToleranceMinutes, isFileTimeReceived } = how;
  const { clockToleranceMinutes: _, ...rest } = request;
  return {
    ...rest,
    day: settlement.day,
    route: settlement.route,
    // Of two rows with one name the first holds.
    roster: new Roster({
      machines: [...offices.flatMap((office) => office.machines), ...machines],
      plan,
      capturesList: [...offices.flatMap((office) => office.capturesList), ...capturesList],
      profiles: [...offices.flatMap((office) => office.profiles), ...profiles],
    }),
    refused: offices.flatMap(({ refused }) => refused) as Finding[],
    settle: { tolerance, ignoreHandMoves, ...(windowMinutes === null ? {} : { windowMinutes }) },
    defaults: { currency: how.currency, decimals: how.decimals },
    isFileTimeReceived,
    ...(clockToleranceMinutes === null ? {} : { clockToleranceMinutes }),
  };
}

/** All that the office has said of a closing's machines, at the closing first. */
function officesOf({ body, adjustments }: Pick<Closing, 'body' | 'adjustments'>): readonly SettledOffice[] {
  return [body.office, ...adjustments.map((adjustment) => adjustment.body.office)];
}

/** Today's roster, with machines that it lacks as closings have them: a visit that is closed is known under its name. */
function completeRoster({ books }: Roster, closings: readonly Closing[]): Roster {
  const known = closings.flatMap((closing) => officesOf(closing).flatMap(({ machines }) => machines));
  return new Roster({ ...books, machines: [...books.machines, ...known] });
}

/** Whether a visit is one of a closing's: by machine, time and bag, or by its capture. */
function hasVisit(closing: Closing, visit: Visit, round: WorkedRound): boolean {
  const { machine, visitedAt, bag } = visit;
  const { capture } = round.sources.get(visit)!;
  return recordedState(closing).visits.some(
    (known) =>
      known.machine === machine &&
      ((known.visitedAt === visitedAt && known.bag === bag) || (capture !== null && known.capture === capture)),
  );
}

/** How the visits of a settlement stand, with their entries. */
export function standingsNow({ visits }: Settlement, { sources }: WorkedRound): Standing[] {
  return visits.map((visit) => standingOf(visit, sources.get(visit)!));
}

function dropRepeated(findings: readonly Finding[]): Finding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()];
}
