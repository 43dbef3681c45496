// Interval: reads of machines → what was sold and what cash did between every two consecutive ones.
// In: TakenReads (reads with what is known of them from outside) and the roster. Out: Intervals with findings.
// Must not know: what checks find, counts of money, files. Resets, restarts and roll-overs are stated, never guessed.
export { buildInterval } from './build-interval.js';
export { buildEach, buildIntervals, sayDuplicate, sayUnusable } from './build-intervals.js';
export { type CashDifferences, type CashMovement, measureCash } from './cash-movement.js';
export type { ColumnSales } from './column-sales.js';
export {
  type Basis,
  type Difference,
  findRollOver,
  type UnknownWhy,
  valueOrNothing,
  valueToSubtract,
} from './difference.js';
export { carryDoubts, doubtsBehind, tellStep } from './doubts-behind.js';
export { contentKey, isContent, mergeDuplicates, type SameRead } from './duplicates.js';
export { type Era, orderReads } from './eras.js';
export {
  gatherHistories,
  type Histories,
  listReads,
  listSteps,
  type MachineHistory,
  measureBetween,
} from './history.js';
export { type Gap, type Interval, type Intervals, isInterval } from './interval.js';
export { type Fall, fellTogether, measureFall } from './lifetime-fall.js';
export { mirrorCredits } from './mirror-credits.js';
export { ReadPair } from './read-pair.js';
export { judgeReset, type ResetJudgement, type ResetState } from './resets.js';
export { judgeRestart, type Restart, type RestartCause, type RestartCounters } from './restart.js';
export { type PriceShare, splitValue, type ValueSplit } from './split-value.js';
export { type Moved, type PlacedRead, STEP_COUNTERS, type Step, type StepColumn, type StepTotals } from './step.js';
export { compareReads, isTaken, namesOfReads, type TakenRead } from './taken-read.js';
export { readTubes, tubeContents } from './tubes.js';
