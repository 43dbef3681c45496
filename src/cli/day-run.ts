import { resolve } from 'node:path';
import type { BookRound, Recorded, RecordedAdjustment } from '../book/closing/index.js';
import type { BookHead, BookStore, Intake } from '../book/index.js';
import type { Telling } from '../book/run/index.js';
import {
  type Day,
  DayWriter,
  type Finding,
  type LocalDate,
  type Roster,
  realPaths,
  type TakeOptions,
  writeDate,
} from '../index.js';
import { DayFolder } from './day-folder.js';
import { DayPages } from './day-pages.js';
import type { DaySheets } from './day-sheets.js';
import { type DayReport, layDayReport, sayAnswer } from './day-text.js';
import { EXIT, StatusKeeper } from './exit-status.js';
import { workplaceOf } from './inputs.js';
import {
  type DayOrigin,
  hashSources,
  isMadeFrom,
  MADE_FROM,
  type MadeFrom,
  OUT_FILES,
  readMadeFrom,
} from './made-from.js';
import { defaultMoney } from './money-options.js';
import { pathsOfBook } from './open-book.js';
import type { DayOptions } from './option-shapes.js';
import { printText } from './print-lines.js';
import { styleFor } from './printer.js';
import { Progress } from './progress.js';
import {
  countsOfChanges,
  findStaleFolders,
  layStaleFolders,
  rememberFolder,
  type StaleFolder,
} from './stale-folders.js';
import type { Terminal } from './terminal.js';

/** Whether something came in of which the figures are not worked out, as after a run that was killed. */
export async function hasWork(book: BookStore): Promise<boolean> {
  return (await book.staleMachines()).length > 0;
}

/** What a run is told. */
export interface RunSetting {
  readonly names: readonly string[];
  readonly options: DayOptions;
  readonly sheets: DaySheets;
  readonly terminal: Terminal;
  readonly version: string;
}

/** A run on an open book. */
export class DayRun {
  readonly #book: BookStore;
  readonly #setting: RunSetting;
  readonly #day: LocalDate;
  readonly #progress: Progress;
  readonly #status: StatusKeeper;

  constructor(book: BookStore, setting: RunSetting) {
    this.#book = book;
    this.#setting = setting;
    const { options, terminal } = setting;
    this.#day = options.day ?? today(terminal);
    this.#progress = new Progress(terminal);
    this.#status = new StatusKeeper(options.strict);
  }

  async run(): Promise<number> {
    const { names, options, sheets } = this.#setting;
    const { tellOffice } = await import('../book/run/index.js');
    const { book: file, out } = options;
    const { office } = sheets;
    // What a run that was killed had taken in is as new as what this one takes in.
    const since = (await hasWork(this.#book)) ? 0 : (await this.#book.head()).size;
    const isTaking = !this.#book.isReadOnly && names.length > 0;
    const toldBy = isTaking ? await tellOffice(this.#book, office.given, this.#telling()) : null;
    const changes = await countsOfChanges(this.#book);
    const intake = isTaking ? await this.#takeIn(office.roster, toldBy) : null;
    const roster = await this.#tellList(office.roster);
    await this.bringUpToDate();
    const counted = await this.#recordCounts(roster);
    const adjusted = this.#book.isReadOnly ? [] : [...counted.adjusted, ...(await this.#adjust(roster, since))];
    const findings = [...sheets.findings, ...(intake?.findings ?? []), ...counted.findings];
    const stale = await this.#findStale(changes);
    const head = await this.#book.head();
    const origin = await this.#originOf(head, roster, findings);
    const made = out === undefined ? null : await readMadeFrom(this.#path(out));
    const { pages, tables } = options;
    const folder = out === undefined || !tables ? null : out;
    const rest = { intake, folder, pages: out === undefined || !pages ? null : out, adjusted, stale, head, book: file };
    // With the same book and the same sheets the same files would come out.
    if (intake !== null && !options.json && isMadeFrom(made, origin)) {
      await this.#print({ ...rest, answer: `Nothing new. ${made.answer}`, day: null });
      return made.status;
    }
    const { day, json, status } = await this.#make(roster, { findings, origin, stale });
    if (options.json) {
      await this.#write(json);
      for (const line of layStaleFolders(stale)) this.#setting.terminal.stderr.write(`${line.trimStart()}\n`);
    } else await this.#print({ ...rest, answer: sayAnswer(day, intake), day: tables ? day : null });
    return status;
  }

  /** Work out what is not worked out yet. */
  async bringUpToDate(): Promise<void> {
    if (this.#book.isReadOnly) return;
    const { addRemembered, recallOffice, workOutStale } = await import('../book/run/index.js');
    const { machines } = await recallOffice(this.#book);
    const roster = this.#setting.sheets.office.roster.withoutList();
    const known = this.#takeOptions(addRemembered(roster, machines));
    await workOutStale(this.#book, { ...known, onMachine: this.#say('machines worked out') });
  }

  /** Make the day's files again from the book as it is, and say nothing. Gives the first line and what `day.json` holds. */
  async makeAgain(
    stale: readonly StaleFolder[],
  ): Promise<{ readonly answer: string; readonly json: string; readonly status: number }> {
    const { office, findings } = this.#setting.sheets;
    const { roster } = office;
    const origin = await this.#originOf(await this.#book.head(), roster, findings);
    const { day, json, status } = await this.#make(roster, { findings, origin, stale });
    return { answer: sayAnswer(day, null), json, status };
  }

  /** Other days whose tables would come out otherwise now. */
  async #findStale(before: ReadonlyMap<LocalDate, number>): Promise<readonly StaleFolder[]> {
    const { options, terminal } = this.#setting;
    if (!this.#book.isReadOnly) await (await import('../book/closing/index.js')).countChangedRounds(this.#book);
    const stale = await findStaleFolders(this.#book, { file: options.book, terminal }, before);
    return stale.filter(({ day }) => day !== this.#day);
  }

  /** Record the bags of the sheet; one that the book has counts as it was entered, which is said where the sheet differs. */
  async #recordCounts(roster: Roster): Promise<Pick<Recorded, 'findings' | 'adjusted'>> {
    const { counts } = this.#setting.sheets;
    if (counts === null || this.#book.isReadOnly) return { findings: [], adjusted: [] };
    const { closeRounds } = await import('../book/closing/index.js');
    const { now } = this.#setting.terminal;
    const { take, isFileTimeReceived } = this.#takeOptions(roster);
    const request = { ...take, day: this.#day, roster, isFileTimeReceived, sheet: counts, settle: counts.settle };
    const signature = { by: null, recordedAt: now().toISOString(), reason: null };
    const { refusals, findings, adjusted } = await closeRounds(this.#book, request, signature, { isClosing: false });
    return { findings: [...refusals, ...findings], adjusted };
  }

  /** Record what came in changes of rounds that are closed. */
  async #adjust(roster: Roster, since: number): Promise<readonly RecordedAdjustment[]> {
    const { recordAdjustments } = await import('../book/closing/index.js');
    const { now } = this.#setting.terminal;
    return recordAdjustments(this.#book, { recordedAt: () => now().toISOString(), since, roster });
  }

  #telling(): Telling {
    const { options, sheets, terminal } = this.#setting;
    const recordedAt = (): string => terminal.now().toISOString();
    const { sources } = sheets.office;
    return { day: this.#day, recordedAt, sheets: sources, isFileTimeReceived: options.receivedFromFileTime };
  }

  /** Record what the captures list tells of what is in the book: what it says holds by the book from then on. */
  async #tellList(roster: Roster): Promise<Roster> {
    if (this.#book.isReadOnly) return roster;
    const { tellList } = await import('../book/run/index.js');
    await tellList(this.#book, roster, this.#telling());
    return roster.withoutList();
  }

  async #takeIn(roster: Roster, toldBy: number | null): Promise<Intake> {
    const { takeIn } = await import('../book/index.js');
    const { names, terminal } = this.#setting;
    return takeIn(this.#book, names, {
      day: this.#day,
      recordedAt: () => terminal.now().toISOString(),
      ...this.#takeOptions(roster),
      toldBy,
      skip: await this.#pathsToSkip(),
      onFile: this.#progress.step,
      workplace: workplaceOf(terminal),
    });
  }

  /** The sheets, the book with what lies beside it, and what an earlier run wrote. */
  async #pathsToSkip(): Promise<ReadonlySet<string>> {
    const { options, sheets, terminal } = this.#setting;
    const { book, out, counts, profiles } = options;
    const written = out === undefined ? [] : [out, ...OUT_FILES.map((name) => `${out}/${name}`)];
    const named = [counts, ...profiles, ...pathsOfBook(book, terminal), ...written];
    return new Set([...sheets.office.sheetPaths, ...(await realPaths(named, workplaceOf(terminal)))]);
  }

  #takeOptions(roster: Roster): { take: TakeOptions; isFileTimeReceived: boolean } {
    const { options } = this.#setting;
    const { clockTolerance, receivedFromFileTime } = options;
    const tolerance = clockTolerance === undefined ? {} : { clockToleranceMinutes: clockTolerance };
    return {
      take: { roster, defaults: defaultMoney(options), ...tolerance },
      isFileTimeReceived: receivedFromFileTime,
    };
  }

  async #originOf(head: BookHead, roster: Roster, findings: readonly Finding[]): Promise<DayOrigin> {
    const { options, sheets, version } = this.#setting;
    const { currency, decimals, clockTolerance, receivedFromFileTime, strict, pages, tables } = options;
    const judged = { currency, decimals, clockTolerance, receivedFromFileTime, strict, pages, tables };
    const hash = hashSources({ roster, counts: sheets.counts, findings, options: judged });
    const { changesOf } = await import('../book/run/index.js');
    const changes = await changesOf(this.#book, this.#day);
    return { day: this.#day, book: head, changes, pages, sheets: hash, version };
  }

  /** Make the day, part by part, and write its files where they are asked for. */
  async #make(
    roster: Roster,
    {
      findings,
      origin,
      stale: staleDays,
    }: { findings: readonly Finding[]; origin: DayOrigin; stale: readonly StaleFolder[] },
  ): Promise<{ day: Day; json: string; status: number }> {
    const [{ adjustedOnDay, lookBack }, { makeDayParts }] = await Promise.all([
      import('../book/closing/index.js'),
      import('../book/run/index.js'),
    ]);
    const { options } = this.#setting;
    const stale = new Set((await this.#book.staleMachines()).map(({ machine }) => machine));
    const rounds = await this.#settleRounds(roster);
    const settlements = rounds.map(({ settlement }) => settlement);
    const writer = new DayWriter();
    const out = options.out === undefined ? null : this.#path(options.out);
    const folder = out === null || !options.tables ? null : new DayFolder(out);
    const pages = out === null || !options.pages ? null : await DayPages.begin(out, this.#day, origin.book);
    const parts = makeDayParts(this.#book, {
      day: this.#day,
      ...this.#takeOptions(roster),
      strict: options.strict,
      settlements: { settlements, findings: [] },
      adjusted: await adjustedOnDay(this.#book, this.#day),
      oneSided: await lookBack(this.#book, this.#day, settlements),
      findings,
      stale,
      withContents: pages !== null,
      onMachine: this.#say('machines looked at'),
    });
    try {
      await folder?.add(writer.begin());
      for await (const part of parts) {
        this.#weighVisits(part.day);
        writer.add(part.day);
        await folder?.add(writer.rows(part.day));
        await pages?.add(part);
      }
      const { files, day } = writer.end(staleDays.map(({ day, folder }) => ({ day, folder })));
      for (const { findings: found } of day.attention) this.#status.add(found);
      const status = this.#status.status;
      const made: MadeFrom = { ...origin, status, answer: sayAnswer(day, null) };
      await pages?.finish(day, rounds);
      await folder?.add([...files, { name: MADE_FROM, text: `${JSON.stringify(made)}\n` }]);
      await folder?.finish();
      const place = { file: options.book, terminal: this.#setting.terminal };
      if (folder !== null && !this.#book.isReadOnly) await rememberFolder(this.#book, this.#day, options.out!, place);
      return { day, json: files.find(({ name }) => name === 'day.json')!.text, status };
    } finally {
      await folder?.discard();
      await pages?.discard();
    }
  }

  /** The rounds of the day as the book has them, with the bags of the sheet; none where no bag of the day is known. */
  async #settleRounds(roster: Roster): Promise<readonly BookRound[]> {
    const { countsOfDay, settleBook } = await import('../book/closing/index.js');
    const { counts } = this.#setting.sheets;
    const how = counts?.settle ?? (await countsOfDay(this.#book, this.#day))?.settle;
    if (how === undefined) return [];
    const { take, isFileTimeReceived } = this.#takeOptions(roster);
    const { rounds } = await settleBook(this.#book, {
      ...take,
      day: this.#day,
      roster,
      isFileTimeReceived,
      sheet: this.#book.isReadOnly ? counts : null,
      settle: how,
    });
    return rounds;
  }

  /** A bag that could not be settled: somebody has to act before the round can be closed. */
  #weighVisits({ settlements }: Day): void {
    const states = settlements.flatMap(({ visits }) => visits.map(({ state }) => state));
    if (states.some((state) => state === 'unsettled' || state === 'unread')) this.#status.raise(EXIT.faults);
  }

  #say(what: string): () => void {
    let count = 0;
    return () => this.#progress.show(`${++count} ${what}`);
  }

  #print(report: DayReport): Promise<void> {
    return this.#write(`${layDayReport(report, styleFor(this.#setting.terminal)).join('\n')}\n`);
  }

  async #write(text: string): Promise<void> {
    this.#progress.clear();
    await printText(text, this.#setting.terminal);
  }

  #path(file: string): string {
    return resolve(this.#setting.terminal.cwd, file);
  }
}

/** The day it is where the program runs. */
export function today({ now }: Terminal): LocalDate {
  const moment = now();
  return writeDate(moment.getFullYear(), moment.getMonth() + 1, moment.getDate());
}
