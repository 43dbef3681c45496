// Captures: reads → reads as the accounts take them, with what the office knows of each.
// In: reads, the roster, options of the user. Out: TakenReads, and the context in which a read is checked.
// Must not know: where a capture was stored, intervals' arithmetic, counts of money.
export { type CheckCircumstances, makeCheckContext } from './check-context.js';
export { type CaptureCircumstances, type MoneyDefaults, type ResolvedRead, resolveRead } from './resolve-read.js';
export { type ReadCheck, type TakeOptions, takeRead, takeReads } from './take-reads.js';
