import { describe, expect, it } from 'vitest';
import { CURRENCIES, currencyByAlpha } from '../../src/model/index.js';
import { currenciesOfMark } from '../../src/sheets/currency-mark.js';

describe('currenciesOfMark', () => {
  it.each([
    ['EUR', ['EUR']],
    ['eur', ['EUR']],
    ['€', ['EUR']],
    ['£', expect.arrayContaining(['GBP'])],
    ['$', expect.arrayContaining(['USD', 'CAD', 'AUD'])],
    ['US$', ['USD']],
    ['kr', ['SEK', 'NOK', 'DKK', 'ISK']],
    ['Kr.', ['SEK', 'NOK', 'DKK', 'ISK']],
    ['Fr.', ['CHF']],
    ['Zł', ['PLN']],
    ['¥', ['JPY', 'CNY']],
  ])('knows %s', (mark, currencies) => {
    expect(currenciesOfMark(mark)).toEqual(currencies);
  });

  it('knows every code of ISO 4217', () => {
    for (const { alpha } of CURRENCIES) expect(currenciesOfMark(alpha)).toEqual([alpha]);
  });

  it.each(['', 'XYZ', '%', 'pcs', '.', '#', 'EURO', '__proto__'])('knows no %j', (mark) => {
    expect(currenciesOfMark(mark)).toBeNull();
  });

  it('names only currencies of ISO 4217', () => {
    for (const mark of [
      '€',
      '$',
      'us$',
      'c$',
      'a$',
      'nz$',
      'hk$',
      's$',
      'mx$',
      'r$',
      '£',
      '¥',
      'kr',
      'fr',
      'sfr',
      'zł',
      'kč',
      'ft',
      'lei',
      '₺',
      '₪',
      '₹',
      'rs',
      '₩',
      '฿',
      '₱',
      '₽',
      '₴',
      'r',
    ]) {
      for (const code of currenciesOfMark(mark)!) expect(currencyByAlpha(code), code).not.toBeNull();
    }
  });
});
