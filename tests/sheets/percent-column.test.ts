import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePercent } from '../../src/sheets/percent-column.js';

const parse = (text: string) => {
  const taken = new Set<string>();
  const reading = parsePercent(text, { taken });
  return 'value' in reading ? reading.value : `${reading.refusal.code}: ${reading.refusal.says}`;
};

describe('parsePercent', () => {
  it.each([
    ['0', 0],
    ['0 %', 0],
    ['12', 120_000],
    ['12.5', 125_000],
    ['12,5', 125_000],
    ['12,5%', 125_000],
    ['12.500', 125_000],
    ['8.8750', 88_750],
    ['1.0001', 10_001],
    ['1.00010000', 10_001],
    ['100.0', 1_000_000],
    ['.5 %', 5_000],
    ['0,0001%', 1],
    // More than 100: the shape of the column refuses it, with the cell's text.
    ['101', 1_010_000],
    ['999', 9_990_000],
  ])('reads %s', (text, parts) => {
    expect(parse(text)).toBe(parts);
  });

  it.each(['', '%', '.', '-5', '5 percent', '1.2.3', '1000', '1.234,5', '12.', '1e1', '½'])('refuses %j', (text) => {
    expect(parse(text)).toBe(`bad-cell: "${text}" is no percentage`);
  });

  it('refuses more decimals than it keeps, rather than rounding', () => {
    expect(parse('1.00001')).toBe('bad-cell: "1.00001" has too many decimals');
  });

  // Common practice: a cell formatted as a percentage comes out of a spreadsheet as 15% or as 0.15.
  it.each(['0.15', '0,5', '.9999', '0.0001'])('refuses %s without its sign, which may be a fraction of 1', (text) => {
    expect(parse(text)).toBe(`ambiguous-number: "${text}" can be read as a percentage and as a fraction of 1`);
  });

  it('says that a comma was taken to stand before decimals', () => {
    const taken = new Set<string>();
    parsePercent('12.5', { taken });
    expect([...taken]).toEqual([]);
    parsePercent('12,5', { taken });
    expect([...taken]).toEqual(['commas before decimals']);
  });

  it('gives every percentage back exactly, by the integers of the language', () => {
    fc.assert(
      fc.property(fc.bigInt(0n, 1_000_000n), fc.constantFrom('.', ','), (parts, mark) => {
        const text = `${parts / 10_000n}${mark}${String(parts % 10_000n).padStart(4, '0')} %`;
        expect(parse(text)).toBe(Number(parts));
      }),
    );
  });
});
