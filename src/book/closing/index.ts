// Closing: a day's rounds settled from the book, closed for good, and adjusted by what comes after.
// In: the book, what the office says, a count sheet. Out: settlements as closed or as worked out; entries recorded.
// Must not know: how figures are shown, how commands are typed, which database it is.
export { type Adjustment, adjustmentToJson, type Closing, closingsOf } from './closings.js';
export { countsOfDay, type DayCounts } from './counts-of-day.js';
export type { CountSheet } from './merge-counts.js';
export type { Signature } from './plan-counts.js';
export { type AdjustOptions, type RecordedAdjustment, recordAdjustments } from './record-adjustments.js';
export { type BookRound, type BookRounds, closeRounds, type Recorded, settleBook } from './settle-book.js';
export { settlementFromJson } from './settlement-from-json.js';
export { adjustmentBodySchema, closingBodySchema, correctionBodySchema, countBodySchema } from './shapes.js';
export type { RoundRequest } from './work-out-round.js';
