import { resolve } from 'node:path';
import type { z } from 'zod';
import { type BookExportJson, ExportError, exportBook } from '../book/index.js';
import { hangText, layFindings, type Office, PLAIN_STYLE, printable, writeJson } from '../index.js';
import { bookExportShape } from './book-option-shapes.js';
import { EXIT, InputError, StatusKeeper, UsageError } from './exit-status.js';
import { circumstancesOf, loadOfficeFiles, refuseTwoInputs } from './inputs.js';
import { keepHeapSmall } from './keep-heap-small.js';
import { defaultMoney } from './money-options.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import { periodOf } from './period-options.js';
import { printLines } from './print-lines.js';
import { Progress } from './progress.js';
import { rememberedOffice } from './remembered-office.js';
import type { Terminal } from './terminal.js';

type Options = z.infer<typeof bookExportShape>;

/** `book export`: captures, columns and cash as Parquet, a folder a day, for an engine that reads them. */
export async function runBookExport(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(bookExportShape, raw);
  keepHeapSmall();
  if (options.csv) throw new UsageError('--csv makes no sense here: the tables are written as Parquet');
  const { from = null, to = null } = periodOf(options);
  refuseTwoInputs([options.machines, options.plan, options.capturesList]);
  const earlier = await rememberedOffice({ book: options.book, isReadOnly: true }, terminal);
  const office = await loadOfficeFiles(options, terminal, earlier);
  const status = new StatusKeeper(options.strict);
  status.add(office.findings);
  if (office.findings.length > 0) terminal.stderr.write(`${layFindings(office.findings, PLAIN_STYLE).join('\n')}\n`);
  // Without a sheet that can not be read, products and prices would be missing from tables that take the place of good ones.
  if (status.status >= EXIT.input) {
    terminal.stderr.write('coilbook: nothing was exported: mend the sheets first.\n');
    return status.status;
  }
  const exported = await exportTables(options, { from, to }, office, terminal);
  await printLines(options.json ? [writeJson(exported)] : layExport(exported), terminal);
  return status.status;
}

async function exportTables(
  options: Options,
  span: Pick<BookExportJson, 'from' | 'to'>,
  office: Office,
  terminal: Terminal,
): Promise<BookExportJson> {
  const progress = new Progress(terminal);
  const { roster, isFileTimeReceived, onFile: _, ...clock } = circumstancesOf(options, office, progress);
  const take = { roster, defaults: defaultMoney(options), ...clock };
  const folder = resolve(terminal.cwd, options.parquet);
  try {
    const tally = await withBook({ book: options.book, isReadOnly: true }, terminal, (book) =>
      exportBook(book, folder, { ...span, take, isFileTimeReceived, onStretch: ({ from }) => progress.show(from) }),
    );
    return { folder: options.parquet, ...span, ...tally };
  } catch (error) {
    if (error instanceof ExportError) throw new InputError(error.message, { cause: error });
    throw error;
  } finally {
    progress.clear();
  }
}

function layExport({ folder, from, to, captures, columns, cash, partitions }: BookExportJson): string[] {
  const answer = `${spanWords(from, to)} in ${printable(folder, 200)}.`;
  return [
    ...hangText('', answer),
    '',
    `  captures    ${captures} rows`,
    `  columns     ${columns} rows`,
    `  cash        ${cash} rows`,
    `  partitions  ${partitions}`,
  ];
}

function spanWords(from: string | null, to: string | null): string {
  if (from === null) return to === null ? 'All days of the book are' : `The days of the book up to ${to} are`;
  if (to === null) return `The days of the book from ${from} on are`;
  return from === to ? `The day ${from} of the book is` : `The days of the book from ${from} to ${to} are`;
}
