import { type FolderReading, type LocalDate, moveDate, type Office, type Roster } from '../index.js';
import { UsageError } from './exit-status.js';
import { circumstancesOf, takeCaptures } from './inputs.js';
import { defaultMoney } from './money-options.js';
import { withBook } from './open-book.js';
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

/** Reads, and the machines they are of. */
export interface AllReads extends FolderReading {
  /** That of the office; where it gave none, the machines as the book remembers them. */
  readonly roster: Roster;
}

/** Deposits and sales of one period may be that many days apart: so much more is taken out of the book on either side. */
const DAYS_AROUND = 45;

/**
 * All reads that accounts are made of: the one place that knows whether they come from captures or from the book.
 *
 * @throws UsageError when neither or both are named
 */
export async function takeAllReads(options: AccountingOptions, setting: TakingSetting): Promise<AllReads> {
  const { captures, book } = options;
  if ((captures === undefined) === (book === undefined)) {
    throw new UsageError('--captures or --book: one of the two, where the captures are, must be given');
  }
  if (book !== undefined) return takeFromBook(book, options, setting);
  const { office, ...rest } = setting;
  return { ...(await takeCaptures(captures!, options, office, rest)), roster: office.roster };
}

function takeFromBook(
  book: string,
  options: AccountingOptions,
  { office, terminal, progress }: TakingSetting,
): Promise<AllReads> {
  return withBook({ book, isReadOnly: true }, terminal, async (store) => {
    const { recallPeriod } = await import('../book/recall/index.js');
    const { recallOffice, withRemembered } = await import('../book/run/index.js');
    const roster = withRemembered(office.roster, await recallOffice(store));
    const { isFileTimeReceived, onFile, ...circumstances } = circumstancesOf(options, { ...office, roster }, progress);
    const reads = await recallPeriod(store, {
      take: { ...circumstances, defaults: defaultMoney(options) },
      isFileTimeReceived,
      onMachine: onFile,
      ...periodAround(options),
    });
    return { reads, findings: [], roster };
  });
}

function periodAround({ from, to }: Pick<AccountingOptions, 'from' | 'to'>): { from?: LocalDate; to?: LocalDate } {
  return {
    ...(from === undefined ? {} : { from: moveDate(from, -DAYS_AROUND) }),
    ...(to === undefined ? {} : { to: moveDate(to, DAYS_AROUND) }),
  };
}
