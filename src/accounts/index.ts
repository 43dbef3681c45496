// Accounts: what was sold by card against the processor's deposits; commission and sales tax of each location.
// In: intervals, the roster, rows of the deposits sheet. Out: matches and statements with findings.
// Must not know: files, how anything is shown. Arithmetic is exact and rounded once; what is not known is not guessed.
export {
  DEPOSIT_WINDOW_DAYS,
  type DepositMatch,
  type DepositMatches,
  type DepositOptions,
  type DepositReason,
  type DepositState,
  type DepositTotals,
} from './deposit-match.js';
export { findMachineOfDevice } from './device-sightings.js';
export { type FeeShare, shareFees } from './fee-share.js';
export { findUnstated } from './find-unstated.js';
export { type Fraction, writeFraction } from './fraction.js';
export { limitDeposits } from './limit-deposits.js';
export type { LocationStatement, StatementFigure, StatementLine, StatementPeriod } from './location-statement.js';
export { matchDeposits } from './match-deposits.js';
export { findRefusedDeposits, listRefusals } from './refused-deposits.js';
export { describeRemainder, type RoundedAmount, roundAmount, roundHalfEven } from './round-half-even.js';
export { type SalesByPayment, salesByPayment } from './sales-by-payment.js';
export { stateCommissions } from './state-commissions.js';
export { writePercent } from './write-percent.js';
