import type { Step } from '../interval/index.js';
import type { CashFlag, DayCashRow } from './day.js';
import { nameMachine, periodOf } from './name-row.js';

/** What the cash of a machine did in an interval. */
export function makeCashRow(interval: Step): DayCashRow {
  const { cash, totals } = interval;
  const { machine, location, route } = nameMachine(interval.to);
  const { from, to, currency, decimals } = periodOf(interval);
  return {
    machine,
    location,
    route,
    from,
    to,
    currency,
    decimals,
    sold: totals.sold,
    value: totals.value,
    cashIn: cash.cashIn,
    toCashBox: cash.toCashBox,
    toTubes: cash.toTubes,
    bills: cash.bills,
    dispensed: cash.dispensed,
    byHand: cash.byHand,
    filled: cash.filled,
    overpaid: cash.overpaid,
    cashSales: cash.cashSales,
    cardSales: cash.cardSales,
    tokenSales: cash.tokenSales,
    credited: cash.credited,
    tubesFrom: cash.tubesFrom,
    tubesTo: cash.tubesTo,
    tubeDifference: cash.tubeDifference,
    customerDifference: cash.customerDifference,
    flags: flagCash(interval),
    replaces: [],
  };
}

function flagCash({ cash, restart, floor, basis, from, to }: Step): CashFlag[] {
  const flags: CashFlag[] = [];
  if (restart !== null) flags.push('restart');
  if (floor) flags.push('floor');
  if (basis === 'interval') flags.push('interval-counters');
  if (cash.isCashBookedAsCard) flags.push('cash-as-card');
  if (from.doubts.length > 0 || to.doubts.length > 0) flags.push('doubtful-capture');
  return flags;
}
