import type { Interval } from '../interval/index.js';
import type { CashFlag, DayCashRow } from './day.js';
import { nameMachine, periodOf } from './name-row.js';

/** What the cash of a machine did in an interval. */
export function makeCashRow(interval: Interval): DayCashRow {
  const { cash, totals } = interval;
  const { isCashBookedAsCard: _, ...amounts } = cash;
  return {
    ...nameMachine(interval.to),
    ...periodOf(interval),
    sold: totals.sold,
    value: totals.value,
    ...amounts,
    flags: flagCash(interval),
  };
}

function flagCash({ cash, pair, floor, basis }: Interval): CashFlag[] {
  const flags: readonly (readonly [CashFlag, boolean])[] = [
    ['restart', pair.restart !== null],
    ['floor', floor],
    ['interval-counters', basis === 'interval'],
    ['cash-as-card', cash.isCashBookedAsCard],
  ];
  return flags.filter(([, holds]) => holds).map(([flag]) => flag);
}
