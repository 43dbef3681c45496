// Settlement: counts, roster, plan and taken reads → rounds settled by machine, driver and route.
// In: TakenReads, rows of the count sheet, the roster. Out: Settlements with findings.
// Must not know: files, how anything is shown. Every match says how it was made; nothing is guessed.

export { type ExpectedCash, expectCash } from './expected-cash.js';
export { isInDoubt } from './in-doubt.js';
export { compareCounted, stateOf } from './judge-over-short.js';
export { matchVisit, type VisitMatch } from './match-visit.js';
export { type HistoryInputs, type RoundInputs, settleHistories, settleRound } from './settle-round.js';
export {
  type CashByKind,
  type DriverTotals,
  type ExpectedLine,
  type MatchedBy,
  type Settlement,
  type Settlements,
  type SettlementTotals,
  type SettleOptions,
  type Tolerance,
  VISIT_WINDOW_MINUTES,
  type Visit,
  type VisitSales,
  type VisitState,
} from './settlement.js';
export { isSettled, sumByDriver, sumVisits } from './sum-visits.js';
export { unusableFor } from './unusable-for.js';
