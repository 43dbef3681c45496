import { LONGEST_SEGMENT } from '../segments/index.js';
import type { ReadStart } from './read-start.js';

/** Longest transaction set taken in whole, in bytes: thousands of times a usual one. */
export const LONGEST_SET = 16 * 1024 * 1024;
/** Most columns, and most lines, of a set that is taken in: a hundred times what the largest machine has. */
export const MOST_COLUMNS = 5000;
export const MOST_LINES = 200_000;

/** Options of {@link CaptureReader}. */
export interface CaptureReaderOptions {
  /** Longest segment taken in whole, in bytes. Default 65,536. */
  readonly longestSegment?: number;
  /** Longest set taken in whole, in bytes. Default {@link LONGEST_SET}. */
  readonly longestSet?: number;
  /** Most columns of a set that is taken in. Default {@link MOST_COLUMNS}. */
  readonly mostColumns?: number;
  /** Most lines of a set that is taken in. Default {@link MOST_LINES}. */
  readonly mostLines?: number;
  /** Where the bytes to come stand in the file. Default: from its begin on. */
  readonly startAt?: ReadStart;
}

/** How far a reader goes. */
export type ReaderLimits = Required<Omit<CaptureReaderOptions, 'startAt'>>;

/** @throws RangeError for limits that are not whole numbers above 0 */
export function withDefaults(options: CaptureReaderOptions): ReaderLimits {
  const { longestSegment = LONGEST_SEGMENT, longestSet = LONGEST_SET } = options;
  const { mostColumns = MOST_COLUMNS, mostLines = MOST_LINES } = options;
  const limits = { longestSegment, longestSet, mostColumns, mostLines };
  for (const [name, limit] of Object.entries(limits)) {
    if (Number.isSafeInteger(limit) && limit > 0) continue;
    throw new RangeError(`${name} must be a whole number above 0, not ${limit}`);
  }
  return limits;
}
