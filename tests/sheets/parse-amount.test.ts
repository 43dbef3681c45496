import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMinor } from '../../src/model/index.js';
import { observeMarks, readShape } from '../../src/sheets/amount-shape.js';
import { parseAmount, parsePieces, splitAmount } from '../../src/sheets/parse-amount.js';
import { cellContext, noMarks } from '../support/sheet-reading.js';

describe('splitAmount', () => {
  it.each([
    ['12.50', false, []],
    ['+12.50', false, []],
    ['-12.50', true, []],
    ['\u221212.50', true, []],
    ['12.50-', true, []],
    ['(12.50)', true, []],
    ['(€ 12.50)', true, ['€']],
    ['€ 12.50', false, ['€']],
    ['€-12.50', true, ['€']],
    ['- € 12.50', true, ['€']],
    ['12.50 EUR', false, ['EUR']],
    ['12.50EUR', false, ['EUR']],
    ['12.50\u00a0€', false, ['€']],
    ['EUR 12.50 €', false, ['EUR', '€']],
    ['Fr. 12.50', false, ['Fr.']],
    ['12.50 kr.', false, ['kr.']],
    ['12.50 pcs', false, ['pcs']],
  ])('takes %s apart', (text, isNegative, currencyMarks) => {
    expect(splitAmount(text)).toMatchObject({ isNegative, currencyMarks, shape: { whole: '12', fraction: '50' } });
  });

  it.each(['.50', ' .50', '$.50', '-.50'])('takes the point of %j for a decimal mark', (text) => {
    expect(splitAmount(text)).toMatchObject({ shape: { whole: '', fraction: '50', decimal: '.' } });
  });

  it.each([
    '',
    '€',
    'kr.50',
    'Fr,50',
    '..50',
    '--5',
    '-5-',
    '-(5)',
    '(5',
    '5)',
    ')5(',
    '((5))',
    '5 6 7',
    '1e5',
    '12/5',
    '٣',
  ])('takes %j for no amount', (text) => {
    expect(splitAmount(text)).toBeNull();
  });
});

describe('parseAmount', () => {
  const parse = (text: string, decimals = 2, overrides = {}) => parseAmount(text, decimals, cellContext(overrides));

  it.each([
    ['12.50', 2, 1250],
    ['12,50', 2, 1250],
    ['12.5', 2, 1250],
    ['12', 2, 1200],
    ['.5', 2, 50],
    ['0', 2, 0],
    ['007', 2, 700],
    ['-0', 2, 0],
    ['-12.50', 2, -1250],
    ['1.234,50', 2, 123450],
    ["1'234.50", 2, 123450],
    ['1 234 567,89', 2, 123456789],
    ['€ 12.50', 2, 1250],
    ['12.50 eur', 2, 1250],
    ['1250', 0, 1250],
    ['1,250', 0, 1250],
    ['0.125', 3, 125],
    ['0.0001', 4, 1],
    ['90071992547409.91', 2, Number.MAX_SAFE_INTEGER],
  ])('reads %s with %d decimals', (text, decimals, value) => {
    expect(parse(text, decimals)).toStrictEqual({ value });
  });

  it.each([
    ['12.5', 0, '"12.5" has more decimals than the currency, which has 0', '1250'],
    ['0.505', 2, '"0.505" has more decimals than the currency, which has 2', '12.50'],
    ['12.5050', 2, '"12.5050" has more decimals than the currency, which has 2', '12.50'],
    ['90071992547409.92', 2, '"90071992547409.92" has too many digits', '12.50'],
    ['9'.repeat(400), 3, `"${'9'.repeat(60)}…" has too many digits`, '1.250'],
    ['twelve', 2, '"twelve" is no amount', '12.50'],
    ['12.50 pcs', 2, '"12.50 pcs" is no amount', '12.50'],
    ['12.50 USD', 2, '"12.50 USD" is not in EUR, the currency of the machine', '12.50'],
    ['$12.50', 2, '"$12.50" is not in EUR, the currency of the machine', '12.50'],
    ['€ 12.50 USD', 2, '"€ 12.50 USD" is not in EUR, the currency of the machine', '12.50'],
    ['\u202e12', 2, '"\\u{202E}12" is no amount', '12.50'],
  ])('refuses %s with %d decimals', (text, decimals, says, example) => {
    const expected = `an amount such as ${example}`;
    expect(parse(text, decimals)).toEqual({ refusal: { code: 'bad-cell', says, expected } });
  });

  it('refuses what can be read in two ways', () => {
    const expected = 'an amount such as 12.50, without thousands marks';
    const says = '"1.250" can be read as 1250 and as 1.250';
    expect(parse('1.250')).toEqual({ refusal: { code: 'ambiguous-number', says, expected } });
  });

  it('reads a twofold number by what the sheet proves', () => {
    const marks = { decimal: new Set([',' as const]), grouping: new Set<never>() };
    expect(parse('1,250', 3, { marks, currency: 'KWD' })).toEqual({ value: 1250 });
    expect(parse('12,505', 3, { marks, currency: 'KWD' })).toEqual({ value: 12505 });
    expect(parse('1.250', 2, { marks })).toEqual({ value: 125000 });
  });

  it('takes a sign of some currency where the machine has none known, if its decimals can fit', () => {
    expect(parse('12.50 USD', 2, { currency: null })).toEqual({ value: 1250 });
    expect(parse('$ 1250', 0, { currency: null })).toEqual({ value: 1250 });
    expect(parse('12.50 JPY', 2, { currency: null })).toMatchObject({
      refusal: {
        says: '"12.50 JPY" names a currency that does not have 2 decimals, as this machine\'s money is taken to have',
      },
    });
  });

  it.each([
    ['12.50', []],
    ['12,50', ['commas before decimals']],
    ['1,234.50', ['commas as thousands marks']],
    ['1.234,50 €', ['signs of the currency beside amounts', 'commas before decimals', 'points as thousands marks']],
    ['1 234', ['spaces as thousands marks']],
    ["1'234", ['apostrophes as thousands marks']],
  ])('says how %s was taken', (text, phrases) => {
    const taken = new Set<string>();
    parse(text, 2, { taken });
    expect([...taken]).toEqual(phrases);
  });

  it('says nothing of what it refuses', () => {
    const taken = new Set<string>();
    for (const text of ['1,234.567', '1.250', '12 JPY']) parse(text, 2, { taken });
    expect(taken.size).toBe(0);
  });

  const styles = fc.record({
    decimal: fc.constantFrom('.', ','),
    grouping: fc.constantFrom('', '.', ',', ' ', '\u00a0', '\u202f', "'", '’'),
    before: fc.constantFrom('', '€', '€ ', 'EUR ', '€\u00a0'),
    after: fc.constantFrom('', ' €', ' EUR', 'eur'),
  });

  it('gives back any amount written with any marks', () => {
    const amount = fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -2_000_000, max: 2_000_000 }));
    fc.assert(
      fc.property(amount, fc.integer({ min: 0, max: 4 }), styles, (minor, decimals, style) => {
        const { decimal, before, after } = style;
        const grouping = style.grouping === decimal ? '' : style.grouping;
        const [whole = '', fraction] = formatMinor(minor, decimals).split('.');
        const grouped = whole.replace(/\B(?=(\d{3})+$)/g, grouping);
        const text = fraction === undefined ? grouped : `${grouped}${decimal}${fraction}`;
        // Another amount of the same sheet shows the style, as most sheets do.
        const marks = noMarks();
        if (decimals > 0) observeMarks(readShape(`0${decimal}5`)!, marks);
        const reading = parseAmount(`${before}${text}${after}`, decimals, cellContext({ marks }));
        expect(reading).toStrictEqual({ value: minor });
      }),
      { numRuns: 1000 },
    );
  });

  it('gives the one value or none, whatever the sheet proves', () => {
    const text = fc.string({
      unit: fc.constantFrom(...'0123456789.,', ' ', "'", '-', '€'),
      minLength: 1,
      maxLength: 10,
    });
    fc.assert(
      fc.property(text, fc.integer({ min: 0, max: 4 }), fc.constantFrom(',', ';', '\t'), (any, decimals, separator) => {
        const reading = parseAmount(any, decimals, cellContext({ separator }));
        if (!('value' in reading)) return;
        const digits = any.replace(/\D/g, '').replace(/^0+/, '');
        // Every digit that was written is there, in its order, with nothing but zeros of the decimals behind.
        expect(String(Math.abs(reading.value)).padEnd(1, '0')).toMatch(new RegExp(`^${digits}0*$`));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('parsePieces', () => {
  const parse = (text: string) => parsePieces(text, cellContext());

  it.each([
    ['0', 0],
    ['12', 12],
    ['1,250', 1250],
    ['1 250', 1250],
    ['+3', 3],
  ])('reads %s', (text, value) => {
    expect(parse(text)).toStrictEqual({ value });
  });

  it.each([
    ['-1', '"-1" is below zero'],
    ['1.5', '"1.5" is no whole number'],
    ['12.0', '"12.0" is no whole number'],
    ['many', '"many" is no number'],
    ['5 €', '"5 €" is no number'],
    ['9'.repeat(17), `"${'9'.repeat(17)}" has too many digits`],
  ])('refuses %s', (text, says) => {
    expect(parse(text)).toEqual({ refusal: { code: 'bad-cell', says, expected: 'a whole number of 0 or more' } });
  });
});
