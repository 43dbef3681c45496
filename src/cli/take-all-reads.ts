import { type FolderReading, type LocalDate, moveDate, type Office } from '../index.js';
import { UsageError } from './exit-status.js';
import { circumstancesOf, loadOfficeFiles, takeCaptures } from './inputs.js';
import { defaultMoney } from './money-options.js';
import { withBook } from './open-book.js';
import type { AccountingOptions } from './option-shapes.js';
import type { Progress } from './progress.js';
import { rememberedOffice } from './remembered-office.js';
import type { Terminal } from './terminal.js';

/** What reads are taken with, besides the options. */
export interface TakingSetting {
  readonly office: Office;
  readonly terminal: Terminal;
  readonly progress: Progress;
  /** Real paths of files in a folder that are no captures. */
  readonly skip: ReadonlySet<string>;
}

/** Deposits and sales of one period may be that many days apart: so much more is taken out of the book on either side. */
const DAYS_AROUND = 45;

/**
 * The office of accounts: its sheets as they are given, and of a book what it remembers.
 *
 * @throws UsageError when neither captures nor a book are named, or both
 */
export async function loadAccountingOffice(options: AccountingOptions, terminal: Terminal): Promise<Office> {
  const { captures, book } = options;
  if ((captures === undefined) === (book === undefined)) {
    throw new UsageError('--captures or --book: one of the two, where the captures are, must be given');
  }
  const earlier = book === undefined ? undefined : await rememberedOffice({ book, isReadOnly: true }, terminal);
  return loadOfficeFiles(options, terminal, earlier);
}

/** All reads that accounts are made of: the one place that knows whether they come from captures or from the book. */
export async function takeAllReads(options: AccountingOptions, setting: TakingSetting): Promise<FolderReading> {
  const { captures, book } = options;
  if (book !== undefined) return takeFromBook(book, options, setting);
  const { office, ...rest } = setting;
  return takeCaptures(captures ?? [], options, office, rest);
}

function takeFromBook(
  book: string,
  options: AccountingOptions,
  { office, terminal, progress }: TakingSetting,
): Promise<FolderReading> {
  return withBook({ book, isReadOnly: true }, terminal, async (store) => {
    const { recallPeriod } = await import('../book/recall/index.js');
    const { isFileTimeReceived, onFile, ...circumstances } = circumstancesOf(options, office, progress);
    const reads = await recallPeriod(store, {
      take: { ...circumstances, defaults: defaultMoney(options) },
      isFileTimeReceived,
      onMachine: onFile,
      ...periodAround(options),
    });
    return { reads, findings: [] };
  });
}

function periodAround({ from, to }: Pick<AccountingOptions, 'from' | 'to'>): { from?: LocalDate; to?: LocalDate } {
  return {
    ...(from === undefined ? {} : { from: moveDate(from, -DAYS_AROUND) }),
    ...(to === undefined ? {} : { to: moveDate(to, DAYS_AROUND) }),
  };
}
