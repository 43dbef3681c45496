import { currencyByAlpha } from './currency.js';
import type { Minor } from './money.js';

/** The smallest and the largest note of a currency, in minor units. */
export interface NoteRange {
  readonly smallest: Minor;
  readonly largest: Minor;
}

const notes = (smallest: Minor, largest: Minor): NoteRange => ({ smallest, largest });

/**
 * Notes of the commonest currencies, in minor units by the decimals of ISO 4217. From memory: what is or lately was paid
 * with, also where the highest notes are no longer issued. For a machine with decimals of its own take {@link noteRange}.
 */
export const BANKNOTES: Readonly<Record<string, NoteRange>> = {
  AED: notes(5_00, 1000_00),
  AUD: notes(5_00, 100_00),
  BGN: notes(5_00, 100_00),
  BRL: notes(2_00, 200_00),
  CAD: notes(5_00, 100_00),
  CHF: notes(10_00, 1000_00),
  CLP: notes(1000, 20_000),
  CNY: notes(1_00, 100_00),
  COP: notes(2000_00, 100_000_00),
  CZK: notes(100_00, 5000_00),
  DKK: notes(50_00, 1000_00),
  EUR: notes(5_00, 500_00),
  GBP: notes(5_00, 50_00),
  HKD: notes(10_00, 1000_00),
  HUF: notes(500_00, 20_000_00),
  IDR: notes(1000_00, 100_000_00),
  ILS: notes(20_00, 200_00),
  INR: notes(10_00, 2000_00),
  ISK: notes(500, 10_000),
  JPY: notes(1000, 10_000),
  KRW: notes(1000, 50_000),
  KWD: notes(250, 20_000),
  MXN: notes(20_00, 1000_00),
  MYR: notes(1_00, 100_00),
  NOK: notes(50_00, 1000_00),
  NZD: notes(5_00, 100_00),
  PEN: notes(10_00, 200_00),
  PHP: notes(20_00, 1000_00),
  PLN: notes(10_00, 500_00),
  RON: notes(1_00, 500_00),
  RSD: notes(10_00, 5000_00),
  SAR: notes(1_00, 500_00),
  SEK: notes(20_00, 1000_00),
  SGD: notes(2_00, 10_000_00),
  THB: notes(20_00, 1000_00),
  TRY: notes(5_00, 200_00),
  TWD: notes(100_00, 2000_00),
  USD: notes(1_00, 100_00),
  ZAR: notes(10_00, 200_00),
};

/**
 * The notes of a currency in the minor units of a machine, which may keep other decimals than ISO 4217 gives.
 *
 * @param currency - ISO 4217 alphabetic code, upper case; null when not known
 * @param decimals - decimals of the machine's money, 0 or more
 * @returns null when the currency is not in {@link BANKNOTES}, or its notes are no whole number of such units
 * @example noteRange('HUF', 0) // { smallest: 500, largest: 20000 }
 */
export function noteRange(currency: string | null, decimals: number): NoteRange | null {
  const range = currency !== null && Object.hasOwn(BANKNOTES, currency) ? BANKNOTES[currency] : undefined;
  if (currency === null || range === undefined) return null;
  const shift = decimals - currencyByAlpha(currency)!.decimals;
  const smallest = shiftDecimals(range.smallest, shift);
  const largest = shiftDecimals(range.largest, shift);
  return smallest === null || largest === null ? null : { smallest, largest };
}

/**
 * Notes of a currency in a machine's minor units, ascending: its smallest and largest, and 1, 2 and 5 times any power of ten
 * between them. From memory: so are nearly all notes there are. That a note among them was never printed does no harm.
 *
 * @returns null where {@link noteRange} is
 * @example noteValues('GBP', 2) // [500, 1000, 2000, 5000]
 */
export function noteValues(currency: string | null, decimals: number): readonly Minor[] | null {
  const range = noteRange(currency, decimals);
  if (range === null) return null;
  const values = new Set([range.smallest]);
  for (let power = 1; power <= range.largest; power *= 10) {
    for (const value of [power, 2 * power, 5 * power]) {
      if (value > range.smallest && value <= range.largest) values.add(value);
    }
  }
  return [...values.add(range.largest)];
}

/** Times ten to the power of `shift`, or null when that is no safe integer. */
function shiftDecimals(amount: Minor, shift: number): Minor | null {
  const factor = 10 ** Math.abs(shift);
  if (shift < 0 && amount % factor !== 0) return null;
  const shifted = shift < 0 ? amount / factor : amount * factor;
  return Number.isSafeInteger(shifted) ? shifted : null;
}
