import type { CountRow, LocalDate, UnusableCount } from '../../model/index.js';
import type { SettleOptions } from '../../settlement/index.js';
import type { MoneyRules } from '../../sheets/index.js';
import type { BookStore } from '../store/index.js';
import { loadCounts, loadUnusable, toRow, toUnusable } from './book-counts.js';
import { closingsOf } from './closings.js';

/** A day's bags as the book has them, and how they were settled. */
export interface DayCounts {
  readonly rows: readonly CountRow[];
  /** Rows that could not be used and are not put right. */
  readonly unusable: readonly UnusableCount[];
  readonly money: MoneyRules;
  readonly settle: Pick<SettleOptions, 'tolerance' | 'windowMinutes' | 'ignoreHandMoves'>;
}

/**
 * The bags of a day that are in the book, corrections included, in the money in which they were entered; settled as the day's
 * last closing was.
 *
 * @returns null where the book has none
 */
export async function countsOfDay(store: BookStore, day: LocalDate): Promise<DayCounts | null> {
  const counts = await loadCounts(store, { dayFrom: day, dayTo: day });
  const unusable = (await loadUnusable(store, day)).map(toUnusable);
  if (counts.length === 0 && unusable.length === 0) return null;
  const rows = counts.map((count) => toRow(count));
  const bodies = new Map(counts.map(({ body }) => [body.machine, body]));
  const money: MoneyRules = {
    decimalsOf: (machine) => bodies.get(machine)?.decimals ?? null,
    currencyOf: (machine) => bodies.get(machine)?.currency ?? null,
    defaultDecimals: null,
  };
  const how = (await closingsOf(store, { day })).at(-1)?.body.how;
  if (how === undefined) return { rows, unusable, money, settle: {} };
  const { tolerance, windowMinutes, ignoreHandMoves } = how;
  const window = windowMinutes === null ? {} : { windowMinutes };
  return { rows, unusable, money, settle: { tolerance, ignoreHandMoves, ...window } };
}
