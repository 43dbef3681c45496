import type { FolderReading, Office } from '../index.js';
import { takeCaptures } from './inputs.js';
import type { AccountingOptions } from './option-shapes.js';
import type { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** What reads are taken with, besides the options. */
export interface TakingSetting {
  readonly office: Office;
  readonly terminal: Terminal;
  readonly progress: Progress;
  /** Real paths of files in a folder that are no captures. */
  readonly skip: ReadonlySet<string>;
}

/** All reads that accounts are made of: the one place that knows where they come from. */
export function takeAllReads(
  options: AccountingOptions,
  { office, ...setting }: TakingSetting,
): Promise<FolderReading> {
  return takeCaptures(options.captures, options, office, setting);
}
