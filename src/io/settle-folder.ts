import { takeCounts } from '../captures/index.js';
import type { MoneyDefaults } from '../checks/index.js';
import type { Finding } from '../findings/index.js';
import { type Settlement, type SettleOptions, settleRound } from '../settlement/index.js';
import { readCounts } from '../sheets/index.js';
import { loadOffice, loadSheet, type Office, type OfficeFiles, realPaths } from './load-office.js';
import { type TakeFilesOptions, takeFiles } from './take-files.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** The files that a round is settled from. */
export interface RoundFiles {
  /** Files and folders of captures, however deep. */
  readonly captures: readonly string[];
  /** The bags as they were counted: a CSV file. */
  readonly counts: string;
}

/** How a round is settled, and how its captures are taken. */
export interface SettleFilesOptions extends SettleOptions, Omit<TakeFilesOptions, 'roster' | 'skip' | 'defaults'> {
  /** Money of captures and amounts where neither they nor the roster say it. Default: not known. */
  readonly defaults?: MoneyDefaults;
}

/** Rounds as they were settled, and what is said of the files and sheets. */
export interface SettledFiles {
  readonly settlements: readonly Settlement[];
  readonly findings: readonly Finding[];
}

/** Nothing is known of the money of captures that do not say it. */
const NO_MONEY: MoneyDefaults = { currency: null, decimals: null };

/**
 * Settle rounds from a folder of captures and the sheet of counted bags. Amounts are integers of minor units; null is not
 * known, never 0. What is wrong with a capture or a row is said in the findings, and the rest still counts.
 *
 * @throws RangeError (as a rejection) when an option is out of range
 * @example
 * const { settlements } = await settleFolder({ captures: ['captures'], counts: 'counts.csv', machines: 'machines.csv' });
 */
export async function settleFolder(
  { captures, counts, ...sheets }: RoundFiles & OfficeFiles,
  options: SettleFilesOptions = {},
  workplace: Workplace = currentWorkplace(),
): Promise<SettledFiles> {
  const office = await loadOffice(sheets, (options.defaults ?? NO_MONEY).decimals, workplace);
  return settleFiles({ captures, counts }, office, options, workplace);
}

/** The same for an office whose sheets were read already. */
export async function settleFiles(
  { captures, counts }: RoundFiles,
  office: Office,
  { defaults = NO_MONEY, ...options }: SettleFilesOptions,
  workplace: Workplace,
): Promise<SettledFiles> {
  const { roster, money, sheetPaths } = office;
  const sheet = await loadSheet(counts, (file) => readCounts(file, money), workplace);
  const { rows, unusable, findings: ofCounts } = takeCounts(sheet, roster);
  const skip = new Set([...sheetPaths, ...(await realPaths([counts], workplace))]);
  const taken = await takeFiles(captures, { ...options, roster, defaults, skip }, workplace);
  const round = { reads: taken.reads, counts: rows, roster, unusable, countFindings: ofCounts, countMoney: money };
  const { settlements, findings } = settleRound(round, options);
  return { settlements, findings: [...office.findings, ...ofCounts, ...taken.findings, ...findings] };
}
