import { join } from 'node:path';
import type { RecordedAdjustment } from '../book/closing/index.js';
import type { BookHead, Intake } from '../book/index.js';
import {
  cautionsOf,
  type Day,
  hangText,
  layCautions,
  layDay,
  layFindings,
  plural,
  printable,
  type StaleDay,
  type Style,
} from '../index.js';
import { layStaleFolders } from './stale-folders.js';

/** What a run has to say at its end. */
export interface DayReport {
  /** The first line. */
  readonly answer: string;
  /** Null when nothing was to be taken in. */
  readonly intake: Intake | null;
  /** Null when the files of the day need not be made again. */
  readonly day: Day | null;
  /** Where the tables are; null where none were written. */
  readonly folder: string | null;
  /** Where the pages are; null where none were made. */
  readonly pages: string | null;
  /** Closed rounds that what came in has changed. */
  readonly adjusted: readonly RecordedAdjustment[];
  /** Other days whose tables would come out otherwise now. */
  readonly stale: readonly StaleDay[];
  readonly head: BookHead;
  readonly book: string;
}

/** The first line of a day: how much there is to look at, and what came in. */
export function sayAnswer(day: Pick<Day, 'attention' | 'machines'>, intake: Intake | null): string {
  const { attention, machines } = day;
  const things = attention.length === 0 ? 'Nothing to look at' : `${plural(attention.length, 'thing')} to look at`;
  const read = `${machines.read} of ${plural(machines.expected, 'machine')} read`;
  return `${things}; ${read}${intake === null ? '' : `; ${plural(intake.taken, 'new file')} taken in`}.`;
}

/** A day's run for a person: the answer, what came in and what did not, the list, and where everything is. */
export function layDayReport(report: DayReport, style: Style): string[] {
  const { answer, intake, day, folder, pages, adjusted, stale, head, book } = report;
  return [
    ...hangText('', answer).map(style.bold),
    ...(intake === null ? [] : layIntake(intake, day === null, style)),
    ...adjusted.flatMap(layAdjusted),
    ...layStaleFolders(stale),
    ...(day === null ? [] : ['', ...layDay(day, style)]),
    '',
    ...(pages === null ? [] : hangText('', printable(`Pages to look at and print: ${join(pages, 'index.html')}`, 400))),
    ...(folder === null ? [] : hangText('', printable(`Tables of the day: ${folder}`, 400))),
    ...hangText('', printable(`Book: ${book}, ${plural(head.size, 'entry', 'entries')}. Write down elsewhere:`, 400)),
    `  size ${head.size}`,
    `  root ${head.root}`,
  ];
}

function layAdjusted({ route, day, settlement }: RecordedAdjustment): string[] {
  const round = printable(`${route === null ? 'no route' : `route ${route}`}, ${day}`, 200);
  return hangText(
    '  ',
    `What came in changes a closed round (${round}, entry ${settlement}): an adjustment was recorded. ` +
      `See settle --book with --day ${day}.`,
  );
}

function layIntake(intake: Intake, showsFindings: boolean, style: Style): string[] {
  const { files, taken, setAside, already, leftForNextTime, unread, reads, duplicates } = intake;
  const parts: readonly (readonly [number, string])[] = [
    [taken, `taken in with ${plural(reads, 'read')}`],
    [setAside, 'set aside, as there is no capture in them'],
    [already, 'in the book already'],
    [leftForNextTime, 'left for the next run, as they were being written'],
    [unread, 'that could not be read'],
  ];
  const shown = parts.filter(([count]) => count > 0).map(([count, words]) => `${count} ${words}`);
  const copies =
    duplicates === 0
      ? ''
      : `; ${plural(duplicates, 'read')} came before, and ${duplicates === 1 ? 'counts' : 'count'} once`;
  const rest = shown.length === 0 ? '' : `: ${shown.join(', ')}`;
  return [
    ...hangText('  ', `Looked at ${plural(files, 'file')}${rest}${copies}.`),
    // With the day they are on its list.
    ...(showsFindings && intake.findings.length > 0
      ? ['', ...layFindings(intake.findings, style), ...layCautions(cautionsOf(intake.findings), style)]
      : []),
  ];
}
