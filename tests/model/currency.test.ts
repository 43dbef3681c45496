import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { data } from 'currency-codes';
import { describe, expect, it } from 'vitest';
import { CURRENCIES, currencyByAlpha, currencyByNumeric } from '../../src/model/index.js';

// ISO 4217, list one, as its maintenance agency publishes it; the npm package `currency-codes` carries the file.
const listOne = readFileSync(createRequire(import.meta.url).resolve('currency-codes/iso-4217-list-one.xml'), 'utf8');

interface Published {
  readonly alpha: string;
  readonly numeric: string;
  readonly minorUnits: string;
}

const published: Published[] = [
  ...listOne.matchAll(/<Ccy>(\w+)<\/Ccy>\s*<CcyNbr>(\d+)<\/CcyNbr>\s*<CcyMnrUnts>([^<]+)<\/CcyMnrUnts>/g),
].map(([, alpha = '', numeric = '', minorUnits = '']) => ({ alpha, numeric, minorUnits }));

/** Taken up since that list: from memory, see the table. */
const LATER = ['XCG'];

describe('the table of ISO 4217', () => {
  it('holds every published currency that has a minor unit, with its number and decimals', () => {
    const paidWith = published.filter(({ minorUnits }) => minorUnits !== 'N.A.');
    expect(new Set(paidWith.map(({ alpha }) => alpha)).size).toBe(166);
    for (const { alpha, numeric, minorUnits } of paidWith) {
      expect(currencyByAlpha(alpha)).toEqual({ alpha, numeric, decimals: Number(minorUnits) });
    }
  });

  it('agrees with the records of the package', () => {
    for (const { alpha, numeric, decimals } of CURRENCIES.filter(({ alpha }) => !LATER.includes(alpha))) {
      expect(data.find(({ code }) => code === alpha)).toMatchObject({ number: numeric, digits: decimals });
    }
    expect(CURRENCIES).toHaveLength(166 + LATER.length);
  });

  it('knows nothing without a minor unit', () => {
    for (const { alpha, numeric } of published.filter(({ minorUnits }) => minorUnits === 'N.A.')) {
      expect(currencyByAlpha(alpha)).toBeNull();
      expect(currencyByNumeric(numeric)).toBeNull();
    }
  });
});

describe('currencyByNumeric', () => {
  it('finds every currency by its number, one number having passed on to a later currency', () => {
    for (const currency of CURRENCIES) {
      const expected = currency.alpha === 'ANG' ? 'XCG' : currency.alpha;
      expect(currencyByNumeric(currency.numeric)?.alpha).toBe(expected);
      expect(currencyByNumeric(Number(currency.numeric))?.alpha).toBe(expected);
      expect(currencyByNumeric(String(Number(currency.numeric)))?.alpha).toBe(expected);
    }
  });

  it.each(['', '0', '1', '000', '0978', '-36', '97', ' 978', 'EUR', '9.8', '1978'])('knows no %j', (code) => {
    expect(currencyByNumeric(code)).toBeNull();
  });
});

describe('currencyByAlpha', () => {
  it('takes any case', () => {
    expect(currencyByAlpha('eur')).toEqual({ alpha: 'EUR', numeric: '978', decimals: 2 });
    expect(currencyByAlpha('Jpy')?.decimals).toBe(0);
  });

  it.each(['', 'EU', 'EURO', 'ZZZ', '978', ' EUR', 'constructor', '__proto__'])('knows no %j', (code) => {
    expect(currencyByAlpha(code)).toBeNull();
  });
});
