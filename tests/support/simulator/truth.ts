import { CASH_FIGURES, type CashLedger, type ColumnLedger, createLedger, ledgerOf } from './ledger.js';
import type { Restart, Snapshot } from './snapshot.js';

/** What truly was sold of one column between two snapshots. Names as in the interval that programs read. */
export interface ColumnTruth {
  readonly column: string;
  readonly product: string;
  readonly sold: number;
  readonly value: number;
  /** Paid vends by the amount really charged, cheapest first. */
  readonly split: readonly { readonly count: number; readonly price: number }[];
  readonly test: number;
  readonly testValue: number;
  readonly free: number;
  readonly freeValue: number;
  readonly discounted: number;
  readonly discounts: number;
  /** Label price at either end; null where the column was not there. */
  readonly priceFrom: number | null;
  readonly priceTo: number | null;
}

/** The sums over all columns. */
export interface TotalsTruth {
  readonly sold: number;
  readonly value: number;
  readonly test: number;
  readonly free: number;
}

/** What truly happened to the money. */
export interface CashTruth extends CashLedger {
  /** By card on either device. */
  readonly cardSales: number;
  readonly tubesFrom: number;
  readonly tubesTo: number;
  readonly tubeDifference: number;
  /** How much more credit stands unspent at the later end. */
  readonly creditStanding: number;
}

/** All that is known between two snapshots. */
export interface Truth {
  readonly columns: readonly ColumnTruth[];
  readonly totals: TotalsTruth;
  readonly cash: CashTruth;
  /** What lay in box, stacker and the driver's hand at the later end, since the last collection. */
  readonly bag: { readonly coins: number; readonly bills: number };
  /** Restarts of the counters after the earlier end, up to the later. */
  readonly restarts: readonly Restart[];
  /** Reads with reset after the earlier snapshot was taken (its own reset, if any, included). */
  readonly resets: number;
}

const NOTHING = ledgerOf(createLedger(), '');

/** The truth between two snapshots of one simulated place, earlier first. Exact, whatever the counters did. */
export function truthBetween(from: Snapshot, to: Snapshot): Truth {
  if (to.restarts.length < from.restarts.length || to.at < from.at)
    throw new RangeError('snapshots in the wrong order');
  const columns = [...to.ledger.columns.keys()].map((column) => columnBetween(column, from, to));
  const sum = (pick: (column: ColumnTruth) => number): number => columns.reduce((total, each) => total + pick(each), 0);
  return {
    columns,
    totals: {
      sold: sum((c) => c.sold),
      value: sum((c) => c.value),
      test: sum((c) => c.test),
      free: sum((c) => c.free),
    },
    cash: cashBetween(from, to),
    bag: { coins: to.bag.coins, bills: to.bag.bills },
    restarts: to.restarts.slice(from.restarts.length),
    resets: to.resets - from.resets,
  };
}

function columnBetween(column: string, from: Snapshot, to: Snapshot): ColumnTruth {
  const a: ColumnLedger = from.ledger.columns.get(column) ?? NOTHING;
  const b: ColumnLedger = to.ledger.columns.get(column) ?? NOTHING;
  const split = [...b.charged]
    .map(([price, count]) => ({ count: count - (a.charged.get(price) ?? 0), price }))
    .filter(({ count }) => count > 0)
    .sort((x, y) => x.price - y.price);
  return {
    column,
    product: (to.columns.get(column) ?? from.columns.get(column))?.product ?? '',
    sold: b.sold - a.sold,
    value: b.value - a.value,
    split,
    test: b.test - a.test,
    testValue: b.testValue - a.testValue,
    free: b.free - a.free,
    freeValue: b.freeValue - a.freeValue,
    discounted: b.discounted - a.discounted,
    discounts: b.discounts - a.discounts,
    priceFrom: from.columns.get(column)?.price ?? null,
    priceTo: to.columns.get(column)?.price ?? null,
  };
}

function cashBetween(from: Snapshot, to: Snapshot): CashTruth {
  const flows = { ...to.ledger.cash };
  for (const figure of CASH_FIGURES) flows[figure] -= from.ledger.cash[figure];
  return {
    ...flows,
    cardSales: flows.card1Sales + flows.card2Sales,
    tubesFrom: from.tubes,
    tubesTo: to.tubes,
    tubeDifference: flows.tubesUnrecorded,
    creditStanding: to.credit - from.credit,
  };
}
