// Intake: files and folders → entries of the book. Every file is recorded whole or not at all, and none is lost: what holds
// no capture is set aside with its reason, what can not be read is said.
// In: names as the user gave them, the roster of today. Out: entries and reads in the book, counts, what was not taken in.
// Must not know: what is worked out from reads, how anything is shown.
export type { Intake, IntakeLimits } from './intake.js';
export { INTAKE_LIMITS, type TakeInOptions, takeIn } from './take-in.js';
