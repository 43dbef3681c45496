import { describe, expect, it } from 'vitest';
import { BANKNOTES, currencyByAlpha, noteRange, noteValues } from '../../src/model/index.js';

describe('BANKNOTES', () => {
  it('are of currencies in ISO 4217, whole units of them but for small ones of great value', () => {
    for (const [alpha, { smallest, largest }] of Object.entries(BANKNOTES)) {
      const currency = currencyByAlpha(alpha);
      expect(currency, alpha).not.toBeNull();
      expect(smallest, alpha).toBeGreaterThan(0);
      expect(largest, alpha).toBeGreaterThan(smallest);
      if (alpha !== 'KWD') expect(smallest % 10 ** currency!.decimals, alpha).toBe(0);
    }
  });

  it('holds the commonest currencies', () => {
    const commonest =
      'EUR USD GBP CHF CAD AUD NZD SEK NOK DKK PLN CZK HUF RON JPY CNY KRW MXN BRL ZAR TRY ILS AED SAR INR SGD HKD';
    expect(Object.keys(BANKNOTES)).toEqual(expect.arrayContaining(commonest.split(' ')));
  });

  // From memory: the first euro series ran from 5 to 500; notes of 1 to 100 dollars; 1000 to 10,000 yen; 5 to 50 pounds.
  it.each([
    ['EUR', 500, 50000],
    ['USD', 100, 10000],
    ['JPY', 1000, 10000],
    ['GBP', 500, 5000],
  ])('gives the notes of %s', (alpha, smallest, largest) => {
    expect(BANKNOTES[alpha]).toEqual({ smallest, largest });
  });
});

describe('noteRange', () => {
  it('gives the notes in the decimals of ISO 4217', () => {
    expect(noteRange('EUR', 2)).toEqual({ smallest: 500, largest: 50000 });
    expect(noteRange('JPY', 0)).toEqual({ smallest: 1000, largest: 10000 });
  });

  it('gives them in the decimals of the machine', () => {
    expect(noteRange('HUF', 0)).toEqual({ smallest: 500, largest: 20000 });
    expect(noteRange('JPY', 2)).toEqual({ smallest: 100000, largest: 1000000 });
  });

  it('is not known for a currency that is not known or not listed', () => {
    expect(noteRange(null, 2)).toBeNull();
    expect(noteRange('UAH', 2)).toBeNull();
    expect(noteRange('constructor', 2)).toBeNull();
  });

  it('is not known where a note is no whole number of units, or too many', () => {
    expect(noteRange('KWD', 0)).toBeNull();
    expect(noteRange('EUR', 15)).toBeNull();
  });
});

describe('noteValues', () => {
  it('gives the notes there may be, ascending', () => {
    expect(noteValues('EUR', 2)).toEqual([500, 1000, 2000, 5000, 10_000, 20_000, 50_000]);
    expect(noteValues('JPY', 0)).toEqual([1000, 2000, 5000, 10_000]);
    expect(noteValues('KWD', 3)).toEqual([250, 500, 1000, 2000, 5000, 10_000, 20_000]);
    expect(noteValues('UAH', 2)).toBeNull();
  });
});
