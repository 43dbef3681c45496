import type { Interval, TakenRead } from '../../src/interval/index.js';
import type { Profile } from '../../src/profile/index.js';
import { type OfficeBooks, Roster } from '../../src/sheets/index.js';
import type { History } from './arbitraries/history.js';
import type { MachineConfig, Truth } from './simulator/index.js';
import { type TakenOptions, takeOne } from './taken.js';

/** A figure that an interval gives, and what truly was. */
export interface FigurePair {
  readonly name: string;
  readonly figure: number | null;
  readonly truth: number;
  /** Whether the interval says that it is the least it can have been. */
  readonly floor: boolean;
}

/** Every figure of an interval beside the truth. Columns that the truth does not know are left out. */
export function listFigures(interval: Interval, truth: Truth): FigurePair[] {
  const pairs: FigurePair[] = [];
  const { floor } = interval;
  const add = (name: string, figure: number | null, real: number, isFloor = floor): void => {
    pairs.push({ name, figure, truth: real, floor: isFloor });
  };
  for (const column of truth.columns) {
    const sales = interval.columns.find((one) => one.column === column.column);
    if (sales === undefined) continue;
    const name = `column ${column.column}`;
    for (const figure of ['sold', 'value', 'test', 'free'] as const) {
      add(`${name} ${figure}`, sales[figure], column[figure], sales.floor || floor);
    }
    add(`${name} discounts`, sales.discounts, column.discounts, sales.floor || floor);
  }
  for (const figure of ['sold', 'value', 'test', 'free'] as const) {
    add(`total ${figure}`, interval.totals[figure], truth.totals[figure]);
  }
  const { cash } = truth;
  for (const figure of [
    'cashIn',
    'toCashBox',
    'toTubes',
    'bills',
    'dispensed',
    'byHand',
    'filled',
    'overpaid',
  ] as const) {
    add(figure, interval.cash[figure], cash[figure]);
  }
  add('cashSales', interval.cash.cashSales, cash.bookedCashSales);
  add('cardSales', interval.cash.cardSales, cash.bookedCardSales);
  add('tokenSales', interval.cash.tokenSales, cash.tokenSales);
  add('credited', interval.cash.credited, cash.creditedToCards);
  add('tubesFrom', interval.cash.tubesFrom, cash.tubesFrom, false);
  add('tubesTo', interval.cash.tubesTo, cash.tubesTo, false);
  add('tubeDifference', interval.cash.tubeDifference, cash.tubeDifference, false);
  return pairs;
}

/** The figures that are wrong: known and not the truth, or a floor above it. Never any. */
export function findWrong(interval: Interval, truth: Truth): FigurePair[] {
  return listFigures(interval, truth).filter(
    ({ figure, truth: real, floor }) => figure !== null && (floor ? figure > real || figure < 0 : figure !== real),
  );
}

/** The names of figures that are not known. */
export function findUnknown(interval: Interval, truth: Truth): string[] {
  return listFigures(interval, truth)
    .filter(({ figure }) => figure === null)
    .map(({ name }) => name);
}

/** What the office says of a simulated machine, if it says all: its habits in a profile. */
export function profileOf({ maker, columns }: MachineConfig): Profile {
  const cardLists = columns.some(({ cardPrice }) => cardPrice !== null) ? { [maker.cardList]: 'card' as const } : {};
  return {
    name: 'simulated',
    models: ['MODEL-A'],
    resets: maker.resetMode,
    dispensedIncludesByHand: maker.byHandInDispensed,
    priceLists: { '0': 'cash', ...cardLists, '4': 'free', '5': 'test' },
  };
}

/** Options of {@link takeHistory}. */
export interface HistoryOptions {
  readonly books?: Partial<OfficeBooks>;
  /** Whether the captures list says why and when each was taken. Default false. */
  readonly isListed?: boolean;
  readonly known?: TakenOptions;
}

/** The reads of a history as the accounts take them, in order, with a roster of the books. */
export function takeHistory(history: History, options: HistoryOptions = {}): { reads: TakenRead[]; roster: Roster } {
  const roster = new Roster(options.books ?? {});
  const reads = history.reads.map((read, index) =>
    takeOne(read.bytes, {
      file: `read-${String(index).padStart(3, '0')}.dex`,
      roster,
      ...(options.isListed
        ? { receivedAt: read.snapshot.at, reason: read.service ? ('service' as const) : ('scheduled' as const) }
        : {}),
      ...options.known,
    }),
  );
  return { reads, roster };
}
