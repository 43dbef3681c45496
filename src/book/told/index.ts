// Told: what the office said that reads are matched by → entries; entries and what reads say of themselves → whose a read is,
// when it was received, why it was taken, its bag.
// In: entries. Out: what follows from them.
// Must not know: what is kept of reads, how sheets are read, how anything is shown.
export {
  compareMatching,
  deriveMatching,
  type MatchedRead,
  type MatchingDifference,
  putRight,
} from './hold-matching.js';
export { makeToldEntry, type ToldNow, type ToldSheet, toNumbered } from './make-told-entry.js';
export { recordTold, type ToldChange } from './record-told.js';
export { type Matching, sayMachine, type ToldFile, ToldHistory, withoutClaimed } from './told-history.js';
export { foldTold, isEarlier } from './told-of-file.js';
export {
  fromToldRow,
  type LateRow,
  type NumberedRow,
  type ToldBody,
  toldBodySchema,
  toldFactsSchema,
  toToldRow,
} from './told-shapes.js';
