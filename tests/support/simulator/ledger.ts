/** What truly happened to one column since the simulation began. Never reset, never rolled over. */
export interface ColumnLedger {
  sold: number;
  value: number;
  test: number;
  testValue: number;
  free: number;
  freeValue: number;
  discounted: number;
  discounts: number;
  /** Amount charged → number of paid vends at it. */
  readonly charged: Map<number, number>;
}

/** What truly happened to the money. `booked…` is what the machine is to say where it books cash sales as card sales. */
export const CASH_FIGURES = [
  'cashIn',
  'toCashBox',
  'toTubes',
  'bills',
  'billCount',
  'dispensed',
  'byHand',
  'filled',
  'overpaid',
  'cashSales',
  'card1Sales',
  'card2Sales',
  'tokenSales',
  'bookedCashSales',
  'bookedCardSales',
  'creditedToCards',
  'exactChange',
  'cashDiscounts',
  'cardDiscounts',
  'tubesUnrecorded',
] as const;

export type CashFigure = (typeof CASH_FIGURES)[number];
export type CashLedger = Record<CashFigure, number>;

/** The simulator's truth, kept apart from the counters of the board. */
export interface Ledger {
  readonly columns: Map<string, ColumnLedger>;
  readonly cash: CashLedger;
}

export function createLedger(): Ledger {
  return {
    columns: new Map(),
    cash: Object.fromEntries(CASH_FIGURES.map((figure) => [figure, 0])) as CashLedger,
  };
}

/** The column's entry, begun at zero when there is none. */
export function ledgerOf(ledger: Ledger, column: string): ColumnLedger {
  let entry = ledger.columns.get(column);
  if (entry === undefined) {
    entry = {
      sold: 0,
      value: 0,
      test: 0,
      testValue: 0,
      free: 0,
      freeValue: 0,
      discounted: 0,
      discounts: 0,
      charged: new Map(),
    };
    ledger.columns.set(column, entry);
  }
  return entry;
}

export function copyLedger(ledger: Ledger): Ledger {
  const columns = [...ledger.columns].map(
    ([column, entry]) => [column, { ...entry, charged: new Map(entry.charged) }] as const,
  );
  return { columns: new Map(columns), cash: { ...ledger.cash } };
}
