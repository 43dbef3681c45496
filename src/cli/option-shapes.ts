import { z } from 'zod';
import { currencyByAlpha, isCalendarDate, isLocalDateTime } from '../index.js';
import { UsageError } from './exit-status.js';
import { DEFAULT_BOOK } from './open-book.js';

export const path = z.string().min(1, 'expected a file or folder');
const minutes = z
  .string()
  .regex(/^\d{1,5}$/, 'expected a whole number of minutes, 0 or more')
  .transform(Number);

const currency = z
  .string()
  .transform((code) => code.toUpperCase())
  .refine((code) => currencyByAlpha(code) !== null, 'expected an alphabetic code of ISO 4217, such as EUR');

export const date = z.string().refine((text) => {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  return parts !== null && isCalendarDate(Number(parts[1]), Number(parts[2]), Number(parts[3]));
}, 'expected a date such as 2026-11-24');

const moment = z
  .string()
  .transform((text) =>
    text
      .trim()
      .replace(' ', 'T')
      .replace(/T(\d\d:\d\d)$/, 'T$1:00'),
  )
  .refine(isLocalDateTime, 'expected a date and time such as "2026-11-24 10:15"');

const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a time of day such as 06:00');

const amount = z.string().regex(/^\d{1,9}([.,]\d{1,4})?$/, 'expected an amount such as 0.50');
const percent = z.string().regex(/^\d{1,3}([.,]\d{1,2})?$/, 'expected a percentage such as 1 or 0.5');

/** Options that all commands take. */
const shared = {
  machines: path.optional(),
  plan: path.optional(),
  capturesList: path.optional(),
  profiles: z.array(path).default([]),
  currency: currency.optional(),
  decimals: z
    .string()
    .regex(/^[0-6]$/, 'expected a number of decimals from 0 to 6')
    .transform(Number)
    .optional(),
  clockTolerance: minutes.optional(),
  receivedFromFileTime: z.boolean().default(false),
  strict: z.boolean().default(false),
  json: z.boolean().default(false),
  csv: z.boolean().default(false),
};

const settling = {
  counts: path.optional(),
  route: z.string().min(1).optional(),
  day: date.optional(),
  tolerance: amount.optional(),
  tolerancePercent: percent.optional(),
  window: minutes.optional(),
  ignoreHandMoves: z.boolean().default(false),
};

/** The book, for the commands that need one, and for those that can do without: there it is optional. */
export const bookPath = path.default(DEFAULT_BOOK);
export const optionalBookPath = path.optional();

export const sharedShape = z.object(shared);
export const checkShape = z.object({
  ...shared,
  machine: z.string().min(1).optional(),
  receivedAt: moment.optional(),
  all: z.boolean().default(false),
  install: z.boolean().default(false),
  second: path.optional(),
  column: z.string().min(1).optional(),
  service: z.boolean().default(false),
});
export const intervalShape = z.object({
  ...shared,
  only: z.string().min(1).optional(),
  table: z.enum(['sales', 'cash'], 'expected sales or cash').optional(),
});
const signedText = z.string().trim().min(1, 'expected some words').max(500, 'expected no more than 500 characters');

const entryNumber = z
  .string()
  .regex(/^\d{1,9}$/, 'expected the number of an entry')
  .transform(Number);

export const settleShape = z.object({
  ...shared,
  ...settling,
  captures: z.array(path).optional(),
  book: path.optional(),
  record: z.boolean().default(false),
  close: z.boolean().default(false),
  closeAnyway: signedText.optional(),
  by: signedText.optional(),
  correct: signedText.optional(),
  corrects: entryNumber.optional(),
  withdraw: entryNumber.optional(),
  reason: signedText.optional(),
  table: z.enum(['visits', 'sales'], 'expected visits or sales').optional(),
});
/** Captures, and the days of which the results are asked for. */
const accounting = {
  captures: z.array(path).optional(),
  book: path.optional(),
  from: date.optional(),
  to: date.optional(),
};
export const depositsShape = z.object({
  ...shared,
  ...accounting,
  deposits: path,
  windowDays: z
    .string()
    .regex(/^\d{1,3}$/, 'expected a whole number of days, 0 or more')
    .transform(Number)
    .optional(),
  dayEndsAt: timeOfDay.optional(),
  completeFrom: date.optional(),
  completeTo: date.optional(),
});
export const statementShape = z.object({
  ...shared,
  ...accounting,
  table: z.enum(['locations', 'machines'], 'expected locations or machines').optional(),
});
export const dayShape = z.object({
  ...shared,
  ...settling,
  book: bookPath,
  out: path.optional(),
  pages: z.boolean().default(true),
  /** Whether tables are written besides pages. */
  tables: z.boolean().default(true),
});
/** Either a day and where its pages are put, or since when tables are made again where they lie. */
export const reportShape = z.object({
  ...shared,
  book: bookPath,
  day: date.optional(),
  out: path.optional(),
  since: date.optional(),
});
export const explainShape = z.object({
  ...shared,
  ...settling,
  figure: z.string().min(1).optional(),
  only: z.string().min(1).optional(),
});

export type SharedOptions = z.infer<typeof sharedShape>;
export type CheckOptions = z.infer<typeof checkShape>;
export type DayOptions = z.infer<typeof dayShape>;
export type AccountingOptions = Pick<z.infer<typeof statementShape>, keyof typeof accounting> & SharedOptions;
export type SettleOptions = z.infer<typeof settleShape>;
export type SettlingOptions = Pick<z.infer<typeof settleShape>, keyof typeof settling> & SharedOptions;

/**
 * The options of a command, checked.
 *
 * @throws UsageError that names the option and what was expected
 */
export function readOptions<Shape extends z.ZodType>(shape: Shape, options: Record<string, unknown>): z.infer<Shape> {
  const result = shape.safeParse(options);
  if (result.success) return result.data;
  const {
    path: [name],
    message,
  } = result.error.issues[0]!;
  const flag = String(name).replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  const given = options[String(name)];
  throw new UsageError(`--${flag}: ${message}${typeof given === 'string' ? `, not "${given}"` : ''}`);
}
