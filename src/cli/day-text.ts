import type { BookHead, Intake } from '../book/index.js';
import { type Day, hangText, layDay, layFindings, printable, type Style } from '../index.js';

/** What a run has to say at its end. */
export interface DayReport {
  /** The first line. */
  readonly answer: string;
  /** Null when nothing was to be taken in. */
  readonly intake: Intake | null;
  /** Null when the files of the day need not be made again. */
  readonly day: Day | null;
  readonly folder: string | null;
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
export function layDayReport({ answer, intake, day, folder, head, book }: DayReport, style: Style): string[] {
  return [
    ...hangText('', answer).map(style.bold),
    ...(intake === null ? [] : layIntake(intake, day === null, style)),
    ...(day === null ? [] : ['', ...layDay(day, style)]),
    '',
    ...(folder === null ? [] : hangText('', printable(`Files of the day: ${folder}`, 400))),
    ...hangText('', printable(`Book: ${book}, ${plural(head.size, 'entry', 'entries')}. Write down elsewhere:`, 400)),
    `  size ${head.size}`,
    `  root ${head.root}`,
  ];
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
    ...(showsFindings && intake.findings.length > 0 ? ['', ...layFindings(intake.findings, style)] : []),
  ];
}

/** A number with its noun. */
function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
