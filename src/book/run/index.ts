// Run: what a night does with the book after files were taken in: working out what every machine did from read to read, and
// making the day from it, part by part.
// In: the book, the office's sheets. Out: what is worked out, kept in the book; parts of a day.
// Must not know: how files came in, how a day is written or shown.
export {
  addRemembered,
  meetRoster,
  type RememberedOffice,
  recallOffice,
  withRemembered,
} from './known-roster.js';
export { type DayPart, type DayPartsOptions, makeDayParts } from './make-day-parts.js';
export { tellList, tellsNews } from './tell-list.js';
export { type Telling, tellOffice } from './tell-office.js';
export { changesOf, countChanges, lastToldDay, listChangedDays, rememberTables, type ToldDay } from './told-days.js';
export { type KeptDifference, verifyWorkedOut, type WorkedOutVerification } from './verify-worked-out.js';
export { type WorkOutOptions, type WorkOutTally, workOutStale } from './work-out.js';
