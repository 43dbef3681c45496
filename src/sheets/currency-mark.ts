import { currencyByAlpha } from '../model/index.js';

const DOLLARS = ['USD', 'CAD', 'AUD', 'NZD', 'HKD', 'SGD', 'TWD', 'MXN', 'ARS', 'CLP', 'COP'];
const CROWNS = ['SEK', 'NOK', 'DKK', 'ISK'];

/** Symbols people write beside amounts, in lower case, and the currencies each can stand for. From memory. */
const SYMBOLS = new Map<string, readonly string[]>([
  ['€', ['EUR']],
  ['$', DOLLARS],
  ['us$', ['USD']],
  ['c$', ['CAD']],
  ['a$', ['AUD']],
  ['nz$', ['NZD']],
  ['hk$', ['HKD']],
  ['s$', ['SGD']],
  ['mx$', ['MXN']],
  ['r$', ['BRL']],
  ['£', ['GBP', 'EGP', 'GIP', 'FKP', 'SHP']],
  ['¥', ['JPY', 'CNY']],
  ['kr', CROWNS],
  ['kr.', CROWNS],
  ['fr', ['CHF']],
  ['fr.', ['CHF']],
  ['sfr', ['CHF']],
  ['sfr.', ['CHF']],
  ['zł', ['PLN']],
  ['kč', ['CZK']],
  ['ft', ['HUF']],
  ['lei', ['RON', 'MDL']],
  ['₺', ['TRY']],
  ['₪', ['ILS']],
  ['₹', ['INR']],
  ['rs', ['INR', 'PKR', 'LKR', 'NPR', 'MUR']],
  ['rs.', ['INR', 'PKR', 'LKR', 'NPR', 'MUR']],
  ['₩', ['KRW', 'KPW']],
  ['฿', ['THB']],
  ['₱', ['PHP']],
  ['₽', ['RUB']],
  ['₴', ['UAH']],
  ['r', ['ZAR']],
]);

/**
 * The currencies that a mark beside an amount can stand for.
 *
 * @param mark - a symbol or an ISO 4217 alphabetic code, in any case
 * @returns their alphabetic codes; null when the mark is no sign of a currency
 * @example currenciesOfMark('kr') // ['SEK', 'NOK', 'DKK', 'ISK']
 */
export function currenciesOfMark(mark: string): readonly string[] | null {
  const currency = currencyByAlpha(mark);
  return currency === null ? (SYMBOLS.get(mark.toLowerCase()) ?? null) : [currency.alpha];
}
