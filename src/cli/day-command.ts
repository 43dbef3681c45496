import { resolve } from 'node:path';
import type { BookStore } from '../book/index.js';
import { DayRun, hasWork, today } from './day-run.js';
import { loadDaySheets } from './day-sheets.js';
import { EXIT, InputError, UsageError } from './exit-status.js';
import { formatOf, refuseTwoInputs } from './inputs.js';
import { keepHeapSmall } from './keep-heap-small.js';
import { withBook } from './open-book.js';
import { type DayOptions, dayShape, readOptions } from './option-shapes.js';
import { isOfAlteredBook, putBack } from './put-back.js';
import { rememberedOffice } from './remembered-office.js';
import { rememberFolder } from './stale-folders.js';
import type { Terminal } from './terminal.js';

/**
 * `day`: take a day's files into the book, work out what is new, and list what has to be looked at. Without a folder the day
 * is made again from the book alone.
 */
export async function runDay(
  names: readonly string[],
  raw: Record<string, unknown>,
  terminal: Terminal,
  version: string,
): Promise<number> {
  const options = readOptions(dayShape, raw);
  keepHeapSmall();
  refuseWrongUse(names, options, terminal);
  const isTaking = names.length > 0;
  const isRecording = isTaking || options.counts !== undefined;
  const earlier = await rememberedOffice({ book: options.book, isReadOnly: !isRecording }, terminal);
  const sheets = await loadDaySheets(options, terminal, earlier);
  // What a list tells of files that are in the book is recorded; pages alone are made of a book that is only read.
  const isToWrite = async (book: BookStore): Promise<boolean> =>
    (await hasWork(book)) ||
    (options.tables && (await import('../book/run/index.js')).tellsNews(book, sheets.office.roster));
  const isReadOnly = !isRecording && !(await withBook({ book: options.book, isReadOnly: true }, terminal, isToWrite));
  const run = (): Promise<number> =>
    withBook({ book: options.book, create: isTaking, isReadOnly }, terminal, (book) =>
      new DayRun(book, { names, options, sheets, terminal, version }).run(),
    );
  const status = await run().catch(async (error: unknown) => {
    if (isReadOnly || !isOfAlteredBook(error)) throw error;
    await putBack(options.book, terminal);
    return Math.max(EXIT.faults, await run());
  });
  if (isReadOnly) await rememberAfterwards(options, terminal);
  return status;
}

/** A day that was made from a book which was only read: where its tables lie is kept all the same, where that can be. */
async function rememberAfterwards({ book: file, day, out, tables }: DayOptions, terminal: Terminal): Promise<void> {
  if (out === undefined || !tables) return;
  try {
    await withBook({ book: file, waitMs: 1000 }, terminal, (book) =>
      rememberFolder(book, day ?? today(terminal), out, { file, terminal }),
    );
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
  }
}

function refuseWrongUse(names: readonly string[], options: DayOptions, { cwd }: Terminal): void {
  if (formatOf(options) === 'csv') throw new UsageError('--csv: a day has several tables; write them with --out DIR');
  const { counts, out, tolerance, tolerancePercent, window, ignoreHandMoves } = options;
  const settling = [tolerance, tolerancePercent, window].some((one) => one !== undefined) || ignoreHandMoves;
  if (counts === undefined && settling) throw new UsageError('--counts is missing: nothing is settled without it');
  if (out !== undefined && names.some((name) => resolve(cwd, name) === resolve(cwd, out))) {
    throw new UsageError('--out: the day can not be written among the captures; name another folder');
  }
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList, counts]);
}
