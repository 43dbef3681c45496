// Day: what came in on a day → the rows of its outputs, and the list of what has to be looked at.
// In: checks, reads, intervals and settlements, what each machine did before. Out: a Day; parts of one can be joined.
// Must not know: where captures are kept, file formats, how anything is shown.
export { makeCashRow } from './cash-row.js';
export type {
  CashFlag,
  Day,
  DayCashRow,
  DayFiles,
  DayMachine,
  DayMachines,
  DaySalesRow,
  DayTotals,
  Period,
  RefillFlag,
  RefillRow,
  Replacing,
  SalesFlag,
} from './day.js';
export { joinDays } from './join-days.js';
export { type DayInputs, makeDay } from './make-day.js';
export { makeRefillRows } from './refill-rows.js';
export { makeSalesRows } from './sales-rows.js';
