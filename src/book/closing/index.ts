// Closing: a day's rounds settled from the book, closed for good, and adjusted by what comes after.
// In: the book, what the office says, a count sheet. Out: settlements as they stand and as they were closed; entries recorded.
// Must not know: how figures are shown, how commands are typed, which database it is.
export { adjustedOnDay } from './adjusted-on-day.js';
export { dayOfCount } from './book-counts.js';
export { listOpenParts, type OpenPart } from './carrying.js';
export { type ClosingWork, closeRounds, type NotClosed, type Recorded } from './close-rounds.js';
export { type Adjustment, type Closing, closingsOf } from './closings.js';
export { countChangedRounds } from './count-changed-rounds.js';
export { correctionBodySchema, countBodySchema, unusableBodySchema, withdrawalBodySchema } from './count-shapes.js';
export type { CountSheet } from './count-sheet.js';
export { countsOfDay, type DayCounts } from './counts-of-day.js';
export { lookBack } from './look-back.js';
export type { Signature } from './plan-counts.js';
export { type AdjustOptions, type RecordedAdjustment, recordAdjustments } from './record-adjustments.js';
export { type BookRequest, type BookRound, type BookRounds, settleBook } from './settle-book.js';
export { adjustmentBodySchema, carriedBodySchema, closingBodySchema } from './shapes.js';
export type { RoundRequest } from './work-out-round.js';
