import { add } from '../model/index.js';
import type { CashByKind, DriverTotals, SettlementTotals, Visit } from './settlement.js';

/** Whether a visit is settled: its difference is known, whichever way it fell. */
export function isSettled({ state }: Visit): boolean {
  return state === 'agreed' || state === 'over' || state === 'short';
}

/**
 * Sums over visits of one currency. Expected, counted and over/short are over the settled visits alone, so that each of
 * them is exact; what was counted on the others is shown apart. Joint bags are in the later visit, and only there.
 */
export function sumVisits(visits: readonly Visit[]): SettlementTotals {
  const settled = visits.filter(isSettled);
  const open = visits.filter((visit) => !isSettled(visit) && !isSettledLater(visit, settled));
  const loss = settled.filter(({ interval }) => interval !== null && interval.totals.loss !== null);
  return {
    expected: sumByKind(settled.map((visit) => visit.expected)),
    counted: sumByKind(settled.map((visit) => visit.counted)),
    overShort: {
      ...sumByKind(settled.map((visit) => visit.overShort)),
      total: add(...settled.map((visit) => visit.overShort.total)),
    },
    cardSales: add(...settled.map(cardSalesOf)),
    sold: add(...settled.map(({ interval }) => interval?.totals.sold ?? null)),
    value: add(...settled.map(({ interval }) => interval?.totals.value ?? null)),
    loss: loss.length === 0 ? null : add(...loss.map(({ interval }) => interval!.totals.loss)),
    settledVisits: settled.length,
    openVisits: visits.length - settled.length,
    countedOpen: sumByKind(open.filter(({ counts }) => counts.length > 0).map((visit) => visit.counted)),
  };
}

/** The totals driver by driver, in the order they first appear. */
export function sumByDriver(visits: readonly Visit[]): DriverTotals[] {
  const drivers = new Map<string | null, Visit[]>();
  for (const visit of visits) {
    const own = drivers.get(visit.driver);
    if (own === undefined) drivers.set(visit.driver, [visit]);
    else own.push(visit);
  }
  return [...drivers].map(([driver, own]) => ({ driver, totals: sumVisits(own) }));
}

/** A machine without card counters sold nothing by card; one whose counters are there but not known leaves the sum open. */
function cardSalesOf({ interval }: Visit): number | null {
  if (interval === null) return null;
  const { cardSales1, cardSales2 } = interval.differences;
  const has = [cardSales1, cardSales2].some(({ why }) => why !== 'absent');
  return has ? interval.cash.cardSales : 0;
}

/** Whether the bag of an open visit is among those settled together on another. */
function isSettledLater(visit: Visit, settled: readonly Visit[]): boolean {
  const row = visit.counts.at(-1);
  return row !== undefined && settled.some((other) => other !== visit && other.counts.includes(row));
}

/** A kind that no visit knows is nothing expected or counted: an empty sum is 0, a sum with an unknown in it unknown. */
function sumByKind(amounts: readonly CashByKind[]): CashByKind {
  const of = (kind: 'coins' | 'bills'): number | null => add(...amounts.map((amount) => amount[kind]));
  return { coins: of('coins'), bills: of('bills') };
}
