import type { Finding } from '../../findings/index.js';
import type { ChangesJson } from '../../report/shapes/closing.js';
import type { Settlement, Visit } from '../../settlement/index.js';
import { Roster } from '../../sheets/index.js';
import type { BookStore } from '../store/index.js';
import { type EntryOfCount, listBecause } from './because.js';
import { type Closing, closingsOf, keyOfSettlement, standingsOf } from './closings.js';
import { readsAround } from './machine-names.js';
import type { SettledOffice, Standing } from './shapes.js';
import { compareStanding, pairStandings, standingOf, subtractSums, sumStandings } from './standing.js';
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
  readonly size: number;
  readonly closed: readonly ClosedDraft[];
  readonly open: readonly OpenDraft[];
  readonly findings: readonly Finding[];
}

/** Work out a day: what is closed by what the office said then, the rest by what it says today. */
export async function draftDay(store: BookStore, asked: RoundRequest): Promise<DayDraft> {
  const { size } = await store.head();
  const request = { ...asked, around: await readsAround(store, asked.day) };
  const closings = await closingsOf(store, { day: request.day });
  const ofRoute = closings.filter(({ body }) => request.route === undefined || body.settlement.route === request.route);
  const closed: ClosedDraft[] = [];
  for (const closing of ofRoute) closed.push(await reworkClosing(store, closing, closings, request));
  const round = await workOutRound(store, { ...request, roster: completeRoster(request.roster, closings) });
  const closedKeys = new Set(closings.map(({ key }) => key));
  const open = groupRound(round, (visit) => closings.some((closing) => hasVisit(closing, visit, round)))
    // A machine that was not looked at when its round was closed belongs to that round all the same.
    .filter((settlement) => !closedKeys.has(keyOfSettlement(settlement)))
    .map((settlement) => ({ settlement, round }));
  const findings = [...round.findings, ...closed.flatMap((draft) => draft.round.findings)];
  return { size, closed, open, findings: dropRepeated(findings) };
}

/** Work the round of a closing out anew, as it was settled then; visits that other closings have stay with those. */
export async function reworkClosing(
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
  return {
    day: settlement.day,
    route: settlement.route,
    // Of two rows with one name the first holds.
    roster: new Roster({
      machines: [...offices.flatMap((office) => office.machines), ...machines],
      plan,
      capturesList: [...offices.flatMap((office) => office.capturesList), ...capturesList],
      profiles: [...offices.flatMap((office) => office.profiles), ...profiles],
    }),
    sheet: request.sheet ?? null,
    isCorrection: request.isCorrection ?? false,
    refused: offices.flatMap(({ refused }) => refused) as Finding[],
    settle: { tolerance, ignoreHandMoves, ...(windowMinutes === null ? {} : { windowMinutes }) },
    defaults: { currency: how.currency, decimals: how.decimals },
    isFileTimeReceived,
    ...(request.around === undefined ? {} : { around: request.around }),
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
  const capture = round.sources.get(visit)!.capture;
  return standingsOf(closing).some(
    (known) =>
      known.machine === machine &&
      ((known.visitedAt === visitedAt && known.bag === bag) || (capture !== null && known.capture === capture)),
  );
}

/** How the visits of a settlement stand, with their entries. */
export function standingsNow({ round, settlement }: OpenDraft, entryOf: EntryOfCount): Standing[] {
  return settlement.visits.map((visit) => standingOf(visit, round.sources.get(visit)!, entryOf));
}

/** What is not as it was closed and adjusted; null where nothing is. */
export async function changesOf(
  store: BookStore,
  { closing, round, worked }: ClosedDraft,
  entryOf: EntryOfCount,
): Promise<{ readonly changes: ChangesJson; readonly visits: Standing[] } | null> {
  const before = standingsOf(closing);
  const after = worked === null ? [] : standingsNow({ round, settlement: worked }, entryOf);
  const visitOf = new Map(after.map((standing, i) => [standing, worked!.visits[i]!]));
  const pairs = pairStandings(before, after).map((pair) => ({ ...pair, changes: compareStanding(pair) }));
  const changed = pairs.filter(({ changes }) => changes.length > 0);
  if (changed.length === 0) return null;
  const withSources = changed.map(({ before: old, after: now }) => ({
    before: old,
    after: now,
    sources: now === null ? null : round.sources.get(visitOf.get(now)!)!,
  }));
  const baseline = closing.adjustments.at(-1)?.body.bookSize ?? closing.body.bookSize;
  const because = await listBecause(store, withSources, round, { baseline, entryOf });
  const sums = subtractSums(sumStandings(after), sumStandings(before));
  return { changes: { ...sums, visits: changed.flatMap(({ changes }) => changes), because }, visits: after };
}

function dropRepeated(findings: readonly Finding[]): Finding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()];
}
