// Checks: one read → findings, one file → verdict. Each check is one file and one entry in checks.ts.
// In: reads, what the office knows. Out: findings worst first, a summary of each read, a verdict, the install check.
// Must not know: other reads of the machine (interval), counts of money (settlement), how it is printed.
export { type Check, type CheckContext, CLOCK_TOLERANCE_MINUTES, type LastGoodRead } from './check.js';
export {
  type CaptureCheck,
  CaptureChecker,
  type CaptureCheckOptions,
  type CheckedRead,
  checkCapture,
  reportUnreadable,
} from './check-capture.js';
export { type CheckCircumstances, makeCheckContext } from './check-context.js';
export { checkRead } from './check-read.js';
export { CHECKS } from './checks.js';
export { DEVICES } from './devices.js';
export { isDoubtOfFigures } from './doubts-of-figures.js';
export { FirstArrivals } from './first-arrivals.js';
export { checkInstall } from './install.js';
export type { InstallCapture, InstallCheck, InstallItem, InstallOptions } from './install-item.js';
export { LastGoodReads, outlineRead } from './last-good-reads.js';
export { keyOfSummary, nameOfSummary, type ReadSummary, summarizeRead, timeOfSummary } from './read-summary.js';
export { nameSignal } from './reception.js';
export {
  type CaptureCircumstances,
  type IdentifiedRead,
  type MoneyDefaults,
  type ResolvedRead,
  resolveRead,
  type ToldOfFile,
} from './resolve-read.js';
export { judge, type Verdict, writeHeadline } from './verdict.js';
