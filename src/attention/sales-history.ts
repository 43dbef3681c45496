import type { Step, StepColumn } from '../interval/index.js';
import { add, bestTime, type Count, type LocalDateTime, type Minor, minutesBetween, subtract } from '../model/index.js';
import { DAY_MINUTES, scaleAmount } from './estimate.js';

/** What one column did between two reads, as far as estimates need it. */
export interface PastColumn {
  readonly column: string;
  readonly sold: Count | null;
  readonly value: Minor | null;
  /** What prices off plan cost; null is not known, or no plan. */
  readonly loss: Minor | null;
  /** Planned price less the one in the machine at the later read; null where either is not known. */
  readonly offBy: Minor | null;
}

/** What a machine did between two reads, without the reads: small enough to keep for every machine. */
export interface PastStretch {
  readonly from: LocalDateTime;
  readonly to: LocalDateTime;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly cashSales: Minor | null;
  readonly cardSales: Minor | null;
  readonly bills: Minor | null;
  /** Whether the figures are the least it can have been. */
  readonly floor: boolean;
  readonly columns: readonly PastColumn[];
}

/**
 * What machines did, by their keys, oldest first; what is asked for may be taken from where it is kept only then, since most
 * machines have nothing about them that needs it.
 */
export type Past = Pick<ReadonlyMap<string, readonly PastStretch[]>, 'get' | 'keys'>;

/** A step as a stretch; null when its times are not known or do not run forward, so that nothing can be said a day. */
export function outlineInterval(step: Step): PastStretch | null {
  return outlineFigures(bestTime(step.from), bestTime(step.to), step);
}

/** What an outline is made of. */
export type OutlinedFigures = Pick<Step, 'currency' | 'decimals' | 'totals' | 'cash' | 'floor' | 'columns'>;

/** The same for figures whose times are known apart; their columns are looked at when they are asked for. */
export function outlineFigures(
  from: LocalDateTime | null,
  to: LocalDateTime | null,
  figures: OutlinedFigures,
): PastStretch | null {
  if (from === null || to === null || to <= from) return null;
  const { currency, decimals, totals, cash, floor } = figures;
  const { cashSales, cardSales, bills } = cash;
  const { sold, value } = totals;
  let columns: readonly PastColumn[] | null = null;
  return {
    ...{ from, to, currency, decimals, sold, value, cashSales, cardSales, bills, floor },
    get columns() {
      columns ??= figures.columns.filter(({ inTo }) => inTo).map(outlineColumn);
      return columns;
    },
  };
}

function outlineColumn({ column, sold, value, loss, pricePlan, priceTo }: StepColumn): PastColumn {
  return { column, sold, value, loss, offBy: subtract(pricePlan, priceTo) };
}

/** How long a stretch is, in minutes; at least one. */
export function minutesOf({ from, to }: PastStretch): number {
  return Math.max(1, minutesBetween(from, to));
}

/** What was counted over how long. */
export interface Rate {
  readonly amount: number;
  readonly minutes: number;
}

/** Less history than this tells nothing of a usual day. */
const SHORTEST_HISTORY = DAY_MINUTES;

/**
 * What a machine usually does, from its own stretches: sum over sum, of those in which the figure is known and no floor.
 *
 * @param pick - the figure
 * @returns null where less than a day of it is known
 */
export function usualRate(
  stretches: readonly PastStretch[],
  pick: (stretch: PastStretch) => number | null,
): Rate | null {
  let amount: number | null = 0;
  let minutes = 0;
  for (const stretch of stretches) {
    const one = stretch.floor ? null : pick(stretch);
    if (one === null) continue;
    amount = add(amount, one);
    minutes += minutesOf(stretch);
  }
  return amount === null || minutes < SHORTEST_HISTORY ? null : { amount, minutes };
}

/** A figure of one column, for {@link usualRate}. */
export const ofColumn =
  (column: string, pick: (column: PastColumn) => number | null) =>
  (stretch: PastStretch): number | null => {
    const found = stretch.columns.find((one) => one.column === column);
    return found === undefined ? null : pick(found);
  };

/** What a rate comes to in a time; null when the rate is not known. */
export function overMinutes(rate: Rate | null, minutes: number): number | null {
  return rate === null ? null : scaleAmount(rate.amount, Math.max(0, minutes), rate.minutes);
}

/** Whether it is known that nothing was sold in a stretch. */
export function isQuiet(
  stretch: PastStretch,
  pick: (stretch: PastStretch) => Count | null = ({ sold }) => sold,
): boolean {
  return !stretch.floor && pick(stretch) === 0;
}

/** How many stretches at the end sold nothing. One whose sales are not known, or only at least, ends the count. */
export function countQuiet(stretches: readonly PastStretch[], pick?: (stretch: PastStretch) => Count | null): number {
  let quiet = 0;
  for (const stretch of stretches.toReversed()) {
    if (!isQuiet(stretch, pick)) break;
    quiet++;
  }
  return quiet;
}

/** The stretches before a machine or column went quiet; all of them where it never sold. */
export function beforeQuiet(
  stretches: readonly PastStretch[],
  pick: (stretch: PastStretch) => Count | null = ({ sold }) => sold,
): readonly PastStretch[] {
  const before = stretches.slice(0, stretches.length - countQuiet(stretches, pick));
  return before.length === 0 ? stretches : before;
}
