// Captures: reads → reads as the accounts take them, with what the office knows of each.
// In: reads, the roster, options of the user. Out: TakenReads.
// Must not know: where a capture was stored, intervals' arithmetic, counts of money.
export { findUnknownMachines, findUnknownRefused, type TakenCounts, takeCounts } from './find-unknown-machines.js';
export { findUnlistedCaptures } from './find-unlisted-captures.js';
export { type Likeness, likenessOf, type MachineTraits, tellLikeness, traitsOf } from './near-machine.js';
export {
  type ReadCheck,
  type TakenWithFindings,
  type TakeOptions,
  takeChecked,
  takeRead,
  takeReads,
  withDoubtsOfFile,
} from './take-reads.js';
