import { isCalendarDate, isTimeOfDay, type LocalDate, writeDate, writeTime } from '../model/index.js';
import { type CellContext, type CellReading, quote, refuse, took } from './cell-reading.js';

/** A date, with its time of day where one was given. */
export interface When {
  readonly date: LocalDate;
  /** `10:15:00`, or null. */
  readonly time: string | null;
}

const FIRST_YEAR = 2000;
const LAST_YEAR = 2099;
/** No date with a time is longer; longer text is not looked into. */
const LONGEST = 60;
const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/;
const RUN_TOGETHER = /^(\d{4})(\d\d)(\d\d)$/;
const THREE_NUMBERS = /^(\d{1,4})[-/. ](\d{1,2})[-/. ](\d{1,4})$/;
const DATE_AND_TIME = /^([\d/.-]+)(?:(?:[Tt]|\s+)(.+))?$/s;
const TIME = /^(\d{1,2}):(\d\d)(?::(\d\d)(?:\.0+)?)?$/;
const ZONE = /^(\d[\d:.]*)\s*(?:Z|UTC|GMT|[+-]\d\d(?::?\d\d)?)$/i;
const STRICT_ISO = /^\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d)?)?$/;

const EXPECTED = 'a date such as 2026-11-24, or with a time 2026-11-24 10:15';

/**
 * Read a date, or a date with a time of day, in ISO 8601 form: `2026-11-24`, `2026-11-24 10:15`, `2026-11-24T10:15:30`.
 * Other forms that begin with the year of four digits (`2026/11/24`, `20261124`) are taken too, and that is said.
 * Everything else is refused, as `ambiguous-date` when it names two days. So is a time with a zone: times of machines
 * and sheets have none. Only years from 2000 to 2099 are taken, which catches slips such as `0206`.
 *
 * @param text - a cell, trimmed and not empty
 */
export function parseWhen(text: string, { taken }: Pick<CellContext, 'taken'>): CellReading<When> {
  const [, dateText = '', timeText] = DATE_AND_TIME.exec(text) ?? [];
  const match = YEAR_FIRST.exec(dateText)?.toSpliced(2, 1) ?? RUN_TOGETHER.exec(dateText);
  if (match === null) return refuseOtherForm(text);
  const [, year, month, day] = match.map(Number) as [number, number, number, number];
  if (!isCalendarDate(year, month, day)) return refuse(`${quote(text)} is no day of the calendar`, EXPECTED);
  if (year < FIRST_YEAR || year > LAST_YEAR) {
    return refuse(`${quote(text)} is not in the years from ${FIRST_YEAR} to ${LAST_YEAR}`, EXPECTED);
  }
  const time = timeText === undefined ? null : readTime(timeText);
  if (time === undefined) return refuseTime(text, timeText!);
  if (!STRICT_ISO.test(text)) taken.add('dates of other forms than 2026-11-24 as year, month, day');
  return took({ date: writeDate(year, month, day), time });
}

/** Undefined when the text is no time of day. */
function readTime(text: string): string | undefined {
  const match = TIME.exec(text);
  if (match === null) return undefined;
  const [hour, minute, second] = [match[1], match[2], match[3] ?? 0].map(Number) as [number, number, number];
  return isTimeOfDay(hour, minute, second) ? writeTime(hour, minute, second) : undefined;
}

function refuseTime(text: string, timeText: string): CellReading<never> {
  return ZONE.test(timeText)
    ? refuse(
        `${quote(text)} has a time zone, while times here are those on the machine's clock`,
        `${EXPECTED}, without a zone`,
      )
    : refuse(`${quote(text)} has no time of day that can be read`, EXPECTED);
}

function refuseOtherForm(text: string): CellReading<never> {
  if (text.length > LONGEST) return refuse(`${quote(text)} is no date`, EXPECTED);
  if (/^\d{5}(\.\d+)?$/.test(text)) {
    return refuse(`${quote(text)} looks like a spreadsheet's own number of a day`, EXPECTED);
  }
  const dates = listReadings(text.split(/[T\s]+\d+:/)[0]!);
  return dates.length > 1
    ? refuse(`${quote(text)} can be read as ${dates.join(' and as ')}`, EXPECTED, 'ambiguous-date')
    : refuse(`${quote(text)} is not a date written with its year first`, EXPECTED);
}

/** Every day that three numbers can name, in whichever order; a year of two digits is taken to be in this century. */
function listReadings(text: string): LocalDate[] {
  const match = THREE_NUMBERS.exec(text);
  if (match === null) return [];
  const [, a, b, c] = match as unknown as [string, string, string, string];
  const orders = [
    [a, b, c],
    [c, b, a],
    [c, a, b],
  ] as const;
  const dates = orders.flatMap(([year, month, day]) => readParts(year, month, day));
  return [...new Set(dates)].sort();
}

function readParts(yearText: string, monthText: string, dayText: string): LocalDate[] {
  if (yearText.length !== 4 && yearText.length !== 2) return [];
  const year = Number(yearText) + (yearText.length === 2 ? FIRST_YEAR : 0);
  const [month, day] = [Number(monthText), Number(dayText)];
  return isCalendarDate(year, month, day) ? [writeDate(year, month, day)] : [];
}
