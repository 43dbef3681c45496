import type { Finding } from '../../findings/index.js';
import type { AdjustmentJson, BookDriverJson, BookFactsJson, DriverPartJson } from '../../report/shapes/closing.js';
import { type Settlement, sumVisits, type Visit } from '../../settlement/index.js';
import type { BookStore } from '../store/index.js';
import { adjustDay, workedOrNothing } from './adjust-rounds.js';
import {
  adjustmentToJson,
  type CarriedPart,
  findTaker,
  listCarriedInto,
  listOpenParts,
  type OpenPart,
} from './carrying.js';
import type { Adjustment, Closing } from './closings.js';
import type { CountSheet } from './count-sheet.js';
import { type ClosedDraft, draftDay, type OpenDraft } from './draft-day.js';
import { listInTheWay } from './in-the-way.js';
import { planCounts } from './plan-counts.js';
import { PlannedBook } from './planned-book.js';
import { settlementFromRecorded } from './settlement-from-recorded.js';
import { pairVisits } from './standing.js';
import type { RoundRequest } from './work-out-round.js';

/** A round that is asked for, and what is said of its counts. */
export interface BookRequest extends RoundRequest {
  /** Bags that may not be in the book yet. */
  readonly sheet?: CountSheet | null;
  /** The entry that the sheet's one row takes the place of. */
  readonly corrects?: number | null;
  /** The entry of a count that is none. */
  readonly withdraw?: number | null;
}

/** A settlement of a book as it stands, with every change that is known. */
export interface BookRound {
  readonly settlement: Settlement;
  /** What the book says of it. */
  readonly inBook: BookFactsJson;
  /** As it was closed, without the intervals it was worked out from; null while it is open. */
  readonly asClosed: Settlement | null;
  /** Its visits as they stand beside themselves as they were closed; null where there is no such visit. */
  readonly visits: readonly { readonly visit: Visit | null; readonly asClosed: Visit | null }[];
}

/** A day's settlements in a book, and findings that belong to none of them. */
export interface BookRounds {
  readonly rounds: readonly BookRound[];
  readonly findings: readonly Finding[];
}

/**
 * Settle a day from the book, without recording anything: each settlement as it stands by what the book and the sheet have,
 * beside it how it was closed and adjusted, and what is not recorded yet.
 *
 * @throws BookError (as a rejection) when the book can not be read; RangeError when an option is out of range
 * @example const { rounds } = await settleBook(book, { day: '2026-11-24', roster });
 */
export async function settleBook(store: BookStore, request: BookRequest): Promise<BookRounds> {
  const { size } = await store.head();
  const { day, sheet = null, corrects = null, withdraw = null, route } = request;
  const work = { sheet, day, roster: request.roster, isCorrection: false, corrects, withdraw };
  let book = new PlannedBook(store, size);
  const plan = await planCounts(book, work, { by: '', recordedAt: NEVER, reason: '' });
  // The rows of a correction take hold together or not at all.
  if (plan.refusals.length > 0) book = new PlannedBook(store, size);
  const isOfRoute = ({ body }: Closing): boolean => route === undefined || body.settlement.route === route;
  const asked: RoundRequest = { ...roundOf(request), plannedFrom: size };
  await adjustDay(book, asked, isOfRoute, { by: null, recordedAt: NEVER, isKept: false });
  const draft = await draftDay(book, asked);
  const rounds: BookRound[] = [];
  for (const each of draft.closed) rounds.push(await showClosed(book, each));
  const parts = await listOpenParts(store);
  const takers = draft.open.map((each) => ({ ...each, ...takerOf(each.settlement) }));
  for (const each of takers) {
    const carried = parts.filter((part) => findTaker(part, takers) === each).map(toCarried);
    const inTheWay = listInTheWay(each.settlement, draft.unusable, asked.roster);
    rounds.push(showOpen(each, carried, inTheWay));
  }
  return { rounds: rounds.sort(compareRounds), findings: [...plan.refusals, ...plan.findings, ...draft.findings] };
}

/** An instant that is put where nothing is recorded. */
const NEVER = '1970-01-01T00:00:00.000Z';

/** What is asked of a round alone. */
export function roundOf(request: BookRequest): RoundRequest {
  const { sheet: _, corrects: __, withdraw: ___, ...round } = request;
  return round;
}

/** A settlement as one that takes adjustments over. */
export function takerOf(settlement: Settlement) {
  return { name: settlement, drivers: new Set(settlement.visits.map(({ driver }) => driver)) };
}

const toCarried = ({ adjustment, route, day, overShort, driver }: OpenPart): CarriedPart => ({
  entry: adjustment,
  route,
  day,
  overShort,
  driver,
});

async function showClosed({ store, size }: PlannedBook, draft: ClosedDraft): Promise<BookRound> {
  const { closing } = draft;
  const { entry, recordedAt, by, body } = closing;
  const settlement = workedOrNothing(draft);
  const asClosed = settlementFromRecorded(body.settlement);
  const isRecorded = (adjustment: Adjustment): boolean => adjustment.entry < size;
  const adjustments: AdjustmentJson[] = [];
  for (const each of closing.adjustments.filter(isRecorded))
    adjustments.push(await adjustmentToJson(store, each, closing));
  const pending = closing.adjustments.filter((each) => !isRecorded(each)).map((each) => each.body);
  const carried = await listCarriedInto(store, closing);
  const pairs = pairVisits(asClosed.visits, settlement.visits);
  return {
    settlement,
    asClosed,
    visits: pairs.map(({ before, after }) => ({ visit: after, asClosed: before })),
    inBook: {
      closing: { entry, at: recordedAt, by, reason: body.anyway?.reason ?? null },
      asClosed: asClosed.totals,
      asItStands: settlement.totals,
      adjustments,
      pending: pending.flatMap(({ changes }) => changes),
      pendingAdjustment:
        pending.length === 0
          ? null
          : {
              because: pending.flatMap(({ because }) => because),
              overShort: pending.reduce((sum, { overShort }) => sum + overShort, 0),
              byDriver: joinParts(pending.flatMap(({ byDriver }) => byDriver)),
            },
      inTheWay: [],
      drivers: tellDrivers(settlement, asClosed, { carried, adjustments }),
    },
  };
}

function joinParts(parts: readonly DriverPartJson[]): DriverPartJson[] {
  const sums = new Map<string | null, number>();
  for (const { driver, overShort } of parts) sums.set(driver, (sums.get(driver) ?? 0) + overShort);
  return [...sums].map(([driver, overShort]) => ({ driver, overShort }));
}

function showOpen({ settlement }: OpenDraft, carried: readonly CarriedPart[], inTheWay: string[]): BookRound {
  return {
    settlement,
    asClosed: null,
    visits: settlement.visits.map((visit) => ({ visit, asClosed: null })),
    inBook: {
      closing: null,
      asClosed: null,
      asItStands: settlement.totals,
      adjustments: [],
      pending: [],
      pendingAdjustment: null,
      inTheWay,
      drivers: tellDrivers(settlement, null, { carried, adjustments: [] }),
    },
  };
}

/** What the book says of everybody who answers for something in a round. */
function tellDrivers(
  settlement: Settlement,
  asClosed: Settlement | null,
  {
    carried,
    adjustments,
  }: { readonly carried: readonly CarriedPart[]; readonly adjustments: readonly AdjustmentJson[] },
): BookDriverJson[] {
  const parts = adjustments.flatMap(({ byDriver }) => byDriver);
  const named = [...settlement.drivers, ...(asClosed?.drivers ?? []), ...carried, ...parts].map(({ driver }) => driver);
  const totalsOf = (of: Settlement | null, driver: string | null) =>
    of?.drivers.find((each) => each.driver === driver)?.totals ?? null;
  return [...new Set(named)].map((driver) => {
    const asItStands = totalsOf(settlement, driver) ?? sumVisits([]);
    const own = carried.filter((part) => part.driver === driver);
    const gone = parts.filter((part) => part.driver === driver && part.carriedTo !== null);
    const sum = (amounts: readonly { readonly overShort: number }[]): number =>
      amounts.reduce((total, { overShort }) => total + overShort, 0);
    return {
      driver,
      totals: asItStands,
      asClosed: totalsOf(asClosed, driver),
      asItStands,
      carried: own.map(({ driver: _, ...part }) => part),
      overShortWithCarried: (asItStands.overShort.total ?? 0) + sum(own) - sum(gone),
    };
  });
}

function compareRounds({ settlement: a }: BookRound, { settlement: b }: BookRound): number {
  const keyOf = ({ route, currency, decimals }: Settlement): string =>
    `${route ?? ''} ${currency ?? ''} ${decimals ?? ''}`;
  return keyOf(a) < keyOf(b) ? -1 : keyOf(a) > keyOf(b) ? 1 : 0;
}
