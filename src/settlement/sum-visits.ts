import { add, addAll, type CountRow } from '../model/index.js';
import type { CashByKind, DriverTotals, SettlementTotals, Visit } from './settlement.js';

/** Whether a visit is settled: its difference is known, whichever way it fell. */
export function isSettled({ state }: Visit): boolean {
  return state === 'agreed' || state === 'over' || state === 'short';
}

/**
 * Sums over visits of one currency. All but what is open is over the settled visits alone, so that each sum is exact, and
 * counted less expected is over/short. Joint bags are in the later visit, and only there.
 *
 * @param settledRows - rows of the sheet that are settled, also on visits of other days; default: those of `visits`
 */
export function sumVisits(
  visits: readonly Visit[],
  settledRows: ReadonlySet<CountRow> = listSettledRows(visits),
): SettlementTotals {
  const settled = visits.filter(isSettled);
  const open = visits.filter((visit) => !isSettled(visit) && !isSettledLater(visit, settledRows));
  const sum = (of: (visit: Visit) => number | null): number | null =>
    settled.length === 0 ? null : addAll(settled.map(of));
  const planned = settled.filter(({ sales }) => sales.hasPlan);
  return {
    expected: { coins: sum(({ expected }) => expected.coins), bills: sum(({ expected }) => expected.bills) },
    counted: { coins: sum((visit) => countedOf(visit, 'coins')), bills: sum((visit) => countedOf(visit, 'bills')) },
    overShort: {
      coins: sum(({ overShort }) => overShort.coins),
      bills: sum(({ overShort }) => overShort.bills),
      total: sum(({ overShort }) => overShort.total),
    },
    cardSales: sum(({ sales }) => sales.cardSales),
    sold: sum(({ sales }) => sales.sold),
    value: sum(({ sales }) => sales.value),
    loss: planned.length === 0 ? null : addAll(planned.map(({ sales }) => sales.loss)),
    settledVisits: settled.length,
    openVisits: open.length,
    countedOpen: sumOpen(open),
  };
}

/**
 * The totals driver by driver, in the order they first appear. Joint bags of several drivers are the later visit's: there
 * the difference shows.
 */
export function sumByDriver(
  visits: readonly Visit[],
  settledRows: ReadonlySet<CountRow> = listSettledRows(visits),
): DriverTotals[] {
  const drivers = new Map<string | null, Visit[]>();
  for (const visit of visits) {
    const { driver } = visit;
    const own = drivers.get(driver);
    if (own === undefined) drivers.set(driver, [visit]);
    else own.push(visit);
  }
  return [...drivers].map(([driver, own]) => ({ driver, totals: sumVisits(own, settledRows) }));
}

/** The rows of the count sheet that are settled. */
export function listSettledRows(visits: readonly Visit[]): ReadonlySet<CountRow> {
  return new Set(visits.filter(isSettled).flatMap(({ counts }) => counts));
}

/** A kind that was not counted on a settled visit is one of which nothing was expected: it adds nothing. */
function countedOf({ expected, overShort }: Visit, kind: 'coins' | 'bills'): number | null {
  return add(expected[kind], overShort[kind]);
}

function isSettledLater({ counts }: Visit, settledRows: ReadonlySet<CountRow>): boolean {
  return counts.length > 0 && counts.every((count) => settledRows.has(count));
}

/** What was counted on open visits, each row once; not known where it cannot be told what a bag's count comes to. */
function sumOpen(open: readonly Visit[]): CashByKind {
  const bags = open.filter(({ counts }) => counts.length > 0);
  const rows = bags.flatMap(({ counts, joinedCounts }) => counts.filter((row) => !joinedCounts.includes(row)));
  // Several rows for one visit may be one bag counted twice.
  if (rows.length > bags.length || bags.some(isOfUnclearMoney)) return { coins: null, bills: null };
  const sum = (kind: 'coins' | 'bills'): number | null => {
    const known = rows.map((row) => row[kind]).filter((amount) => amount !== null);
    return known.length === 0 && rows.length > 0 ? null : addAll(known);
  };
  return { coins: sum('coins'), bills: sum('bills') };
}

const isOfUnclearMoney = ({ currency, isOtherMoney }: Visit): boolean => currency === null || isOtherMoney;
