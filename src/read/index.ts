// Read: blocks of segments → reads with typed access to every value, each traced to its line and offset.
// In: byte chunks. Out: Reads, findings about files and envelopes, how the integrity value fits.
// Must not know: which findings a read deserves (checks), other reads (interval), sheets.
export { type CaptureEnd, CaptureReader, type ReadSink } from './capture-reader.js';
export { Column, type PaymentLine } from './column.js';
export { type CrossTotal, type CrossTotalId, computeCrossTotals, findCrossTotalDifferences } from './cross-totals.js';
export type { Malformed } from './find-malformed.js';
export type { Integrity, IntegrityState, IntegrityVariant } from './integrity.js';
export { LimitedFindings, MOST_FINDINGS } from './limited-findings.js';
export { COLUMN_STRIDE, type LineIndex, type Misplaced } from './line-index.js';
export { parseMachineDate, parseMachineTime } from './machine-date.js';
export { type Figure, locate, type MachineIdentity, Read, type SetRange, type Transmission } from './read.js';
export { type CaptureFile, readCaptures, streamReads } from './read-captures.js';
export { type ReadStart, startOfRead } from './read-start.js';
export { type CaptureReaderOptions, LONGEST_SET, MOST_COLUMNS, MOST_LINES } from './reader-options.js';
export { isSameNumber } from './same-number.js';
export { sniffContent } from './sniff-content.js';
