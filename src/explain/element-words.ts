import type { ElementDef } from '../dictionary/index.js';
import { currencyByNumeric, describeMoney, type LocalDate } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import { parseMachineDate, parseMachineTime } from '../read/index.js';

/** What must be known of a read before its amounts can be put in words. */
export interface ReadMoney {
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly profile: Profile | null;
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
/** Payment devices as PA7 names them (memory). */
const DEVICES: Readonly<Record<string, string>> = {
  CA: 'cash',
  DA: 'cashless device 1',
  DB: 'cashless device 2',
  TA: 'tokens',
};

/**
 * What an element's text says, in words: an amount with its currency, a date, a time. Null where the text says it itself.
 *
 * @param text - the element as it stands; not empty
 */
export function elementWords(text: string, element: ElementDef, money: ReadMoney): string | null {
  if (element.name === 'ID402') return currencyByNumeric(text)?.alpha ?? null;
  if (element.name === 'PA702') return DEVICES[text] ?? null;
  switch (element.kind) {
    case 'money':
      return withNumber(text, (amount) => describeMoney(amount, money.decimals, money.currency));
    case 'count':
      return withNumber(text, (count) => (String(count) === text ? null : String(count)));
    case 'money-or-count':
      return withNumber(text, (number) => billsWords(number, money));
    case 'date':
      return dateWords(text);
    case 'time':
      return timeOfDayWords(text);
    default:
      return null;
  }
}

/** A date in words: `24 November 2026`. */
export function writeDateWords(date: LocalDate): string {
  const [year, month, day] = date.split('-') as [string, string, string];
  return `${Number(day)} ${MONTHS[Number(month) - 1]} ${year}`;
}

function withNumber(text: string, words: (number: number) => string | null): string | null {
  if (!/^[+-]?\d+$/.test(text)) return 'not a number';
  const number = Number(text);
  return Number.isSafeInteger(number) ? words(number) : 'more digits than can be kept exactly';
}

/** Bills are a value, or by an operator's setting their number (Crane Autobar Infinity, p. 33); a profile says. */
function billsWords(number: number, { currency, decimals, profile }: ReadMoney): string {
  const value = describeMoney(number, decimals, currency);
  if (profile?.bills === 'count') return `${number} bills`;
  return profile?.bills === 'value' ? value : `${value} if a value, ${number} bills if a number`;
}

function dateWords(text: string): string {
  if (/^0+$/.test(text)) return 'never';
  const date = parseMachineDate(text);
  return date === null ? 'no date that exists' : writeDateWords(date);
}

function timeOfDayWords(text: string): string {
  const time = parseMachineTime(text);
  return time === null ? 'no time that exists' : time.replace(/:00$/, '');
}
