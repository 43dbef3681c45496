import type { CountSheet } from '../book/closing/index.js';
import {
  type EarlierOffice,
  type Finding,
  loadSheet,
  type Office,
  readCounts,
  type SettleOptions,
  takeCounts,
} from '../index.js';
import { loadOfficeFiles, workplaceOf } from './inputs.js';
import { readTolerance } from './money-options.js';
import type { DayOptions } from './option-shapes.js';
import type { Terminal } from './terminal.js';

/** Bags as they were counted, and how they are settled. */
export interface CountedBags extends CountSheet {
  readonly settle: Pick<SettleOptions, 'tolerance' | 'windowMinutes' | 'ignoreHandMoves'>;
}

/** What the office gave for a day. */
export interface DaySheets {
  readonly office: Office;
  readonly counts: CountedBags | null;
  readonly findings: readonly Finding[];
}

/** Read the office's sheets as options name them, the bags counted among them. */
export async function loadDaySheets(
  options: DayOptions,
  terminal: Terminal,
  earlier: EarlierOffice | undefined,
): Promise<DaySheets> {
  const office = await loadOfficeFiles(options, terminal, earlier);
  if (options.counts === undefined) return { office, counts: null, findings: office.findings };
  const tolerance = readTolerance(options, office.roster.books.machines);
  const reading = await loadSheet(options.counts, (file) => readCounts(file, office.money), workplaceOf(terminal));
  const { rows, unusable, findings } = takeCounts(reading, office.roster);
  const { window, ignoreHandMoves } = options;
  const settle = { tolerance, ignoreHandMoves, ...(window === undefined ? {} : { windowMinutes: window }) };
  return {
    office,
    counts: { rows, unusable, findings, money: office.money, settle },
    findings: [...office.findings, ...findings],
  };
}
