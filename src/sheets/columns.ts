// As a namespace, so that a bundle for the browser carries only the parts of zod that are used.
import * as z from 'zod';
import { currencyByAlpha, type LocalDate, type LocalDateTime } from '../model/index.js';
import { type CellContext, type CellReading, quote, refuse, took } from './cell-reading.js';
import { parseAmount, parsePieces } from './parse-amount.js';
import { parseWhen, type When } from './parse-when.js';

/**
 * One column of a sheet: how a cell becomes a value, and what a value must be. An empty cell is null without being
 * parsed; whether it may be empty is the shape's to say.
 */
export interface Column<T> {
  /** Its name in the header, in lower case with underscores. */
  readonly header: string;
  /** Whether a sheet without this column is refused. */
  readonly isMandatory: boolean;
  /** What a bad cell takes with it: its whole row, or nothing but itself (it then counts as not stated). */
  readonly spoils: 'row' | 'cell';
  /** Whether its cells are money, and so show which marks the sheet uses. */
  readonly isMoney: boolean;
  /** What a cell should hold, for messages. */
  readonly expected: string;
  /** What a value must be. The messages of its checks complete a sentence that begins with the cell's text. */
  readonly shape: z.ZodType<T>;
  /** Text, trimmed and not empty, to a value. */
  parse(text: string, context: CellContext): CellReading<unknown>;
}

type ColumnOptions = Partial<Pick<Column<unknown>, 'isMandatory' | 'spoils' | 'isMoney'>>;
type ColumnRest<T> = Pick<Column<T>, 'expected' | 'shape' | 'parse'>;

function column<T>(header: string, options: ColumnOptions, rest: ColumnRest<T>): Column<T> {
  return { header, isMandatory: false, spoils: 'cell', isMoney: false, ...options, ...rest };
}

const SPREADSHEET_ERROR = /^#(?:REF!|N\/A|VALUE!|NAME\?|DIV\/0!|NUM!|NULL!)$/i;
/** What a spreadsheet makes of a number with more digits than it shows. */
const SHORTENED_NUMBER = /^\d(?:[.,]\d+)?E\+\d+$/i;

function parseText(text: string): CellReading<string> {
  return SPREADSHEET_ERROR.test(text) ? refuse(`${quote(text)} is an error of the spreadsheet`, 'text') : took(text);
}

function parseIdentifier(text: string): CellReading<string> {
  return SHORTENED_NUMBER.test(text)
    ? refuse(`${quote(text)} looks like a long number that a spreadsheet has shortened`, 'the number in full, as text')
    : parseText(text);
}

/** Free text. */
export function textColumn(header: string): Column<string | null> {
  return column(header, {}, { expected: 'text', shape: z.string().nullable(), parse: parseText });
}

/** A name or number by which something is known: a machine's serial, a bag. */
export function identifierColumn(header: string): Column<string | null> {
  return column(header, {}, { expected: 'text', shape: z.string().nullable(), parse: parseIdentifier });
}

/** An identifier without which a row means nothing. */
export function keyColumn(header: string): Column<string> {
  const options = { isMandatory: true, spoils: 'row' } as const;
  return column(header, options, { expected: `a ${header}`, shape: z.string(), parse: parseIdentifier });
}

/** ISO 4217 alphabetic code, in any case. */
export function currencyColumn(header: string): Column<string | null> {
  const isKnown = (code: string): boolean => currencyByAlpha(code) !== null;
  return column(
    header,
    {},
    {
      expected: 'an alphabetic code of ISO 4217 such as EUR',
      shape: z.string().refine(isKnown, 'is no currency of ISO 4217').nullable(),
      parse: (text) => took(text.toUpperCase()),
    },
  );
}

const YES = ['yes', 'y', 'true', '1'];
const NO = ['no', 'n', 'false', '0'];

/** Yes or no; empty is not stated. */
export function yesNoColumn(header: string): Column<boolean | null> {
  const expected = 'yes or no';
  return column(
    header,
    {},
    {
      expected,
      shape: z.boolean().nullable(),
      parse(text) {
        const word = text.toLowerCase();
        return YES.includes(word) || NO.includes(word)
          ? took(YES.includes(word))
          : refuse(`${quote(text)} is neither`, expected);
      },
    },
  );
}

/** A whole number between bounds, both included. */
export function wholeColumn(
  header: string,
  min: number,
  max = Number.MAX_SAFE_INTEGER,
  options: ColumnOptions = {},
): Column<number | null> {
  const range = max === Number.MAX_SAFE_INTEGER ? `of ${min} or more` : `from ${min} to ${max}`;
  return column(header, options, {
    expected: `a whole number ${range}`,
    shape: z.int().min(min, 'is too small').max(max, 'is too large').nullable(),
    parse: parsePieces,
  });
}

/** An amount of 0 or more in the machine's money, in minor units. */
export function moneyColumn(header: string, options: ColumnOptions = {}): Column<number | null> {
  return column(
    header,
    { isMoney: true, ...options },
    {
      expected: 'an amount of 0 or more',
      shape: z.int().min(0, 'is below zero').nullable(),
      parse: parseMoney,
    },
  );
}

function parseMoney(text: string, context: CellContext): CellReading<number | null> {
  // A row without a machine is left out for that alone.
  if (context.machine === null) return took(null);
  if (context.decimals !== null) return parseAmount(text, context.decimals, context);
  const says = `${quote(text)} cannot be read, since the decimals of this machine's money are not known`;
  return refuse(says, 'the machine with its currency or decimals in the roster');
}

const dateShape = z.iso.date();
const timeShape = z.iso.time();

/** A date, or a date with a time, without which a row means nothing. */
export function whenColumn(header: string): Column<When> {
  return column(
    header,
    { isMandatory: true, spoils: 'row' },
    {
      expected: 'a date such as 2026-11-24, or with a time 2026-11-24 10:15',
      shape: z.object({ date: dateShape, time: timeShape.nullable() }),
      parse: parseWhen,
    },
  );
}

/** A date, or a date with a time, as text of ISO 8601. */
export function dateOrTimeColumn(header: string): Column<LocalDateTime | LocalDate | null> {
  return column(
    header,
    {},
    {
      expected: 'a date such as 2026-11-24, or with a time 2026-11-24 10:15',
      shape: z.union([dateShape, z.iso.datetime({ local: true })]).nullable(),
      parse: (text, context) => mapReading(parseWhen(text, context), joinWhen),
    },
  );
}

/** A date with a time. */
export function timeColumn(header: string): Column<LocalDateTime | null> {
  return column(
    header,
    {},
    {
      expected: 'a date with a time such as 2026-11-24 10:15',
      shape: z.iso.datetime({ local: true, error: 'has no time of day' }).nullable(),
      parse: (text, context) => mapReading(parseWhen(text, context), joinWhen),
    },
  );
}

/** A date; midnight as a time of day, which spreadsheets add, is none. */
export function dateColumn(header: string): Column<LocalDate | null> {
  return column(
    header,
    { spoils: 'row' },
    {
      expected: 'a date such as 2026-11-24',
      shape: z.iso.date({ error: 'has a time of day' }).nullable(),
      parse: (text, context) =>
        mapReading(parseWhen(text, context), ({ date, time }) =>
          time === '00:00:00' ? date : joinWhen({ date, time }),
        ),
    },
  );
}

function joinWhen({ date, time }: When): LocalDateTime | LocalDate {
  return time === null ? date : `${date}T${time}`;
}

function mapReading<A, B>(reading: CellReading<A>, map: (value: A) => B): CellReading<B> {
  return 'value' in reading ? took(map(reading.value)) : reading;
}

/** One of a few words, in any case, with spaces, hyphens and underscores alike. */
export function wordColumn<const Word extends string>(header: string, words: readonly Word[]): Column<Word | null> {
  return column(
    header,
    {},
    {
      expected: `one of: ${words.join(', ')}`,
      shape: z.enum(words, 'is none of them').nullable(),
      parse: (text) => took(text.toLowerCase().replace(/[\s_-]+/g, ' ')),
    },
  );
}
