import { plural, printable } from '../index.js';
import { runDay } from './day-command.js';
import { DayRun, hasWork } from './day-run.js';
import { loadDaySheets } from './day-sheets.js';
import { EXIT, UsageError } from './exit-status.js';
import { formatOf } from './inputs.js';
import { keepHeapSmall } from './keep-heap-small.js';
import { withBook } from './open-book.js';
import { dayShape, readOptions, reportShape } from './option-shapes.js';
import { printText } from './print-lines.js';
import { rememberedOffice } from './remembered-office.js';
import { countsOfChanges, findStaleFolders, layStaleFolders, type StaleFolder } from './stale-folders.js';
import type { Terminal } from './terminal.js';

/**
 * `report`: the pages of a day from the book; or, with `--since`, the tables and pages of the days from that one on that would
 * come out otherwise than they were written, made again where they lie.
 */
export async function runReport(raw: Record<string, unknown>, terminal: Terminal, version: string): Promise<number> {
  const { since, day, out } = readOptions(reportShape, raw);
  if (since !== undefined) return makeSince(raw, since, terminal, version);
  if (day === undefined) throw new UsageError('--day is missing: of which day? Or --since, to make changed days again');
  if (out === undefined) throw new UsageError('--out is missing: where shall the pages be put?');
  return runDay([], { ...raw, tables: false }, terminal, version);
}

async function makeSince(
  raw: Record<string, unknown>,
  since: string,
  terminal: Terminal,
  version: string,
): Promise<number> {
  const options = readOptions(dayShape, raw);
  const given = (['day', 'out', 'counts'] as const).find((name) => options[name] !== undefined);
  if (given !== undefined)
    throw new UsageError(`--${given} and --since: the days are made again as and where they lie`);
  if (formatOf(options) === 'csv') throw new UsageError('--csv: the tables of the days lie in their folders');
  keepHeapSmall();
  const { book: file } = options;
  const earlier = await rememberedOffice({ book: file, isReadOnly: true }, terminal);
  const sheets = await loadDaySheets(options, terminal, earlier);
  const isReadOnly = !(await withBook({ book: file, isReadOnly: true }, terminal, hasWork));
  return withBook({ book: file, isReadOnly }, terminal, async (book) => {
    const runOf = (folder: Pick<StaleFolder, 'day' | 'folder' | 'hasPages'>): DayRun => {
      const own = { day: folder.day, out: folder.folder ?? undefined, pages: folder.hasPages };
      return new DayRun(book, { names: [], options: { ...options, ...own }, sheets, terminal, version });
    };
    if (!isReadOnly) await runOf({ day: since, folder: null, hasPages: false }).bringUpToDate();
    const stale = await findStaleFolders(book, { file, terminal }, await countsOfChanges(book));
    const due = stale.filter((one) => one.day >= since);
    const left = stale.filter((one) => one.day < since);
    const lines: string[] = [];
    let worst: number = EXIT.ok;
    for (const one of due) {
      const { answer, json, status } = await runOf(one).makeAgain(left);
      worst = Math.max(worst, status);
      lines.push(options.json ? json.trimEnd() : `  ${one.day}, ${printable(one.folder ?? '', 400)}: ${answer}`);
    }
    const first =
      due.length === 0 ? `Nothing to make again since ${since}.` : `${plural(due.length, 'folder')} made again.`;
    const text = options.json ? lines : [first, ...lines, ...layStaleFolders(left)];
    await printText(text.map((line) => `${line}\n`).join(''), terminal);
    return worst;
  });
}
