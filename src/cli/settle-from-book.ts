import type { BookRound, BookRounds, CountSheet, Recorded, RoundRequest, Signature } from '../book/closing/index.js';
import type { BookStore } from '../book/index.js';
import { type Finding, findUnknownRefused, loadSheet, type Office, readCounts } from '../index.js';
import { UsageError } from './exit-status.js';
import { loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { defaultMoney, readTolerance } from './money-options.js';
import { withBook } from './open-book.js';
import type { SettleOptions } from './option-shapes.js';
import type { Terminal } from './terminal.js';

/** A day settled from the book, and what was recorded of it; null where nothing was to be. */
export interface BookSettling {
  readonly rounds: readonly BookRound[];
  readonly general: readonly Finding[];
  readonly recorded: Recorded | null;
}

/**
 * Settle a day from the book as options say; with `--close` or `--correct` record it first, so that what is printed is what
 * the book has. Without them the book is only looked at.
 */
export async function settleFromBook(options: SettleOptions, terminal: Terminal): Promise<BookSettling> {
  const { book, day, close, by, correct, counts: sheetName } = checkOptions(options);
  refuseTwoInputs([sheetName, options.machines, options.plan, options.capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const counts = await loadSheet(sheetName, (sheet) => readCounts(sheet, office.money), workplaceOf(terminal));
  const request = requestOf(options, day, office, sheetName === undefined ? null : { ...counts, money: office.money });
  const isUnusable = counts.findings.some(isWholeSheet);
  const isRecording = (close || correct !== undefined) && !isUnusable;
  if (isUnusable && (close || correct !== undefined)) {
    terminal.stderr.write('coilbook: nothing was recorded, since the count sheet could not be used\n');
  }
  const signature: Signature = { by: by ?? '', recordedAt: terminal.now().toISOString(), reason: correct ?? null };
  const work = async (store: BookStore): Promise<BookRounds & { recorded: Recorded | null }> => {
    const { closeRounds, settleBook } = await import('../book/closing/index.js');
    const recorded = isRecording ? await closeRounds(store, request, signature, close) : null;
    return { ...(await settleBook(store, request)), recorded };
  };
  const { rounds, findings, recorded } = await withBook({ book, isReadOnly: !isRecording }, terminal, work);
  const unknown = findUnknownRefused(counts.findings, office.roster);
  return { rounds, recorded, general: [...office.findings, ...unknown, ...counts.findings, ...findings] };
}

/** @throws UsageError when options do not go together */
function checkOptions(options: SettleOptions): SettleOptions & { readonly book: string; readonly day: string } {
  const { book, captures, day, close, by, correct, counts } = options;
  if (book === undefined || captures !== undefined)
    throw new UsageError('--captures and --book cannot be given together');
  if (day === undefined) throw new UsageError('--day: with --book the day that is settled must be given');
  if ((close || correct !== undefined) && by === undefined)
    throw new UsageError('--by: who closes or corrects must be given, for the book keeps it');
  if (by !== undefined && !close && correct === undefined) throw new UsageError('--by goes with --close or --correct');
  if (correct !== undefined && counts === undefined)
    throw new UsageError('--correct: the counts must be given (--counts)');
  return { ...options, book, day };
}

function requestOf(options: SettleOptions, day: string, { roster }: Office, sheet: CountSheet | null): RoundRequest {
  const { route, window, ignoreHandMoves, clockTolerance, receivedFromFileTime } = options;
  return {
    day,
    roster,
    sheet,
    ...(route === undefined ? {} : { route }),
    settle: {
      tolerance: readTolerance(options, roster.books.machines),
      ignoreHandMoves,
      ...(window === undefined ? {} : { windowMinutes: window }),
    },
    defaults: defaultMoney(options),
    isFileTimeReceived: receivedFromFileTime,
    ...(clockTolerance === undefined ? {} : { clockToleranceMinutes: clockTolerance }),
  };
}

const WHOLE_SHEET: ReadonlySet<string> = new Set([
  'sheet-unreadable',
  'sheet-column-missing',
  'sheet-column-repeated',
  'unreadable-file',
]);

/** Whether a sheet could not be used at all. */
const isWholeSheet = ({ code }: Finding): boolean => WHOLE_SHEET.has(code);
