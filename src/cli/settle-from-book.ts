import type {
  BookRequest,
  BookRound,
  BookRounds,
  CountSheet,
  Recorded,
  RecordedAdjustment,
  Signature,
} from '../book/closing/index.js';
import type { BookStore } from '../book/index.js';
import { type Finding, loadSheet, type Office, readCounts, takeCounts } from '../index.js';
import { UsageError } from './exit-status.js';
import { loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { defaultMoney, readTolerance } from './money-options.js';
import { withBook } from './open-book.js';
import type { SettleOptions } from './option-shapes.js';
import { rememberedOffice } from './remembered-office.js';
import type { Terminal } from './terminal.js';

/** A day settled from the book, and what was recorded of it; null where nothing was to be. */
export interface BookSettling {
  readonly rounds: readonly BookRound[];
  readonly general: readonly Finding[];
  readonly recorded: Recorded | null;
}

/** What options ask to be recorded. */
interface Recording {
  readonly signature: Signature;
  readonly isClosing: boolean;
  readonly isCorrection: boolean;
  readonly anyway: string | null;
}

/**
 * Settle a day from the book as options say; record first what they ask for, so that what is printed is what the book has.
 * Where they ask for nothing the book is only looked at.
 */
export async function settleFromBook(options: SettleOptions, terminal: Terminal): Promise<BookSettling> {
  const { book, counts: sheetName } = checkOptions(options);
  refuseTwoInputs([sheetName, options.machines, options.plan, options.capturesList]);
  const earlier = await rememberedOffice({ book, isReadOnly: !asksToRecord(options) }, terminal);
  const office = await loadOfficeFiles(options, terminal, earlier);
  const reading = await loadSheet(sheetName, (sheet) => readCounts(sheet, office.money), workplaceOf(terminal));
  const { findings: said, ...rows } = takeCounts(reading, office.roster);
  const sheet: CountSheet | null = sheetName === undefined ? null : { ...rows, findings: said, money: office.money };
  const isUnusable = said.some(isWholeSheet);
  const recording = recordingOf(options, terminal, rows.rows);
  if (isUnusable && recording !== null) {
    terminal.stderr.write('coilbook: nothing was recorded, since the count sheet could not be used\n');
  }
  const isRecording = recording !== null && !isUnusable;
  const work = async (store: BookStore): Promise<BookRounds & { recorded: Recorded | null }> => {
    const { closeRounds, dayOfCount, settleBook } = await import('../book/closing/index.js');
    const day = options.day ?? (await dayOfCount(store, (options.corrects ?? options.withdraw)!));
    if (day === null) throw new UsageError('--day: the entry is no count with a day, so that the day must be given');
    const request = requestOf(options, day, office, sheet);
    if (!isRecording) return { ...(await settleBook(store, { ...request, ...named(options) })), recorded: null };
    const adjusted = await tellList(store, request, recording.signature, office);
    const told = { ...request, roster: request.roster.withoutList() };
    const closed = await closeRounds(store, { ...told, ...named(options) }, recording.signature, recording);
    const adjustments = adjusted.length + closed.adjustments;
    const recorded = { ...closed, adjustments, adjusted: [...adjusted, ...closed.adjusted] };
    // What was refused is not shown as if it were there.
    const shown = recorded.refusals.length > 0 ? { ...told, sheet: null } : told;
    const { rounds, findings } = await settleBook(store, shown);
    return { rounds, findings: [...recorded.refusals, ...findings], recorded };
  };
  const { rounds, findings, recorded } = await withBook({ book, isReadOnly: !isRecording }, terminal, work);
  return { rounds, recorded, general: [...office.findings, ...said, ...findings] };
}

/** Record what a captures list tells otherwise of what is in the book, and what that changes of rounds that are closed. */
async function tellList(
  store: BookStore,
  { day, roster }: BookRequest,
  { by, recordedAt }: Signature,
  { sources }: Office,
): Promise<readonly RecordedAdjustment[]> {
  const { tellList: tell } = await import('../book/run/index.js');
  const since = await tell(store, roster, { day, recordedAt: () => recordedAt, sheets: sources });
  if (since === null) return [];
  const { recordAdjustments } = await import('../book/closing/index.js');
  return recordAdjustments(store, { recordedAt: () => recordedAt, by, since, roster: roster.withoutList() });
}

const named = ({ corrects, withdraw }: SettleOptions): Pick<BookRequest, 'corrects' | 'withdraw'> => ({
  corrects: corrects ?? null,
  withdraw: withdraw ?? null,
});

/** What is to be recorded; null where nothing is. */
function recordingOf(options: SettleOptions, { now }: Terminal, rows: CountSheet['rows']): Recording | null {
  const { record, correct, corrects, withdraw, reason, by } = options;
  const isClosing = options.close || options.closeAnyway !== undefined;
  const isNamed = corrects !== undefined || withdraw !== undefined;
  const isCorrection = correct !== undefined && !isNamed;
  if (!record && !isClosing && !isCorrection && !isNamed) return null;
  const needsName = isClosing || isCorrection || isNamed || rows.some((row) => row.corrects !== null);
  if (needsName && by === undefined)
    throw new UsageError('--by: who closes or corrects must be given, for the book keeps it');
  return {
    signature: { by: by ?? null, recordedAt: now().toISOString(), reason: correct ?? reason ?? null },
    isClosing,
    isCorrection,
    anyway: options.closeAnyway ?? null,
  };
}

const asksToRecord = ({ record, close, closeAnyway, correct, corrects, withdraw }: SettleOptions): boolean =>
  record || close || [closeAnyway, correct, corrects, withdraw].some((one) => one !== undefined);

/** @throws UsageError when options do not go together */
function checkOptions(options: SettleOptions): SettleOptions & { readonly book: string } {
  const { book, captures, day, record, by, correct, corrects, withdraw, reason, counts } = options;
  if (book === undefined || captures !== undefined)
    throw new UsageError('--captures and --book cannot be given together');
  const isNamed = corrects !== undefined || withdraw !== undefined;
  if (day === undefined && !isNamed) throw new UsageError('--day: with --book the day that is settled must be given');
  if (by !== undefined && !asksToRecord(options))
    throw new UsageError('--by goes with --record, --close, --correct, --corrects or --withdraw');
  if (counts === undefined) {
    if (record) throw new UsageError('--record: the counts must be given (--counts)');
    if (correct !== undefined) throw new UsageError('--correct: the counts must be given (--counts)');
    if (corrects !== undefined) throw new UsageError('--corrects: a sheet with the right row must be given (--counts)');
  }
  if (withdraw !== undefined && reason === undefined && correct === undefined)
    throw new UsageError('--reason: why a count is taken out must be given, for the book keeps it');
  if (withdraw !== undefined && corrects !== undefined)
    throw new UsageError('--withdraw and --corrects cannot be given together');
  return { ...options, book };
}

function requestOf(options: SettleOptions, day: string, { roster }: Office, sheet: CountSheet | null): BookRequest {
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
