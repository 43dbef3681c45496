import { describe, expect, it } from 'vitest';
import { decideTwofold, observeMarks, readShape, type TwofoldMark } from '../../src/sheets/amount-shape.js';
import { noMarks } from '../support/sheet-reading.js';

const NB = '\u00a0';
const THIN = '\u202f';

describe('readShape', () => {
  it.each([
    ['12', '12', '', null, null],
    ['12.5', '12', '5', '.', null],
    ['12,50', '12', '50', ',', null],
    ['.50', '', '50', '.', null],
    ['0.500', '0', '500', '.', null],
    ['1234.500', '1234', '500', '.', null],
    ['1,234.50', '1234', '50', '.', ','],
    ['1.234,50', '1234', '50', ',', '.'],
    ['1,234,567', '1234567', '', null, ','],
    ['1.234.567', '1234567', '', null, '.'],
    ['1 234,50', '1234', '50', ',', 'space'],
    [`1${NB}234${NB}567.5`, '1234567', '5', '.', 'space'],
    [`1${THIN}234`, '1234', '', null, 'space'],
    ["1'234.50", '1234', '50', '.', 'apostrophe'],
    ['1’234’567', '1234567', '', null, 'apostrophe'],
  ])('takes %s apart', (text, whole, fraction, decimal, grouping) => {
    expect(readShape(text)).toEqual({ whole, fraction, decimal, grouping, twofold: null });
  });

  it.each([
    ['1,250', ',', '1250'],
    ['1.250', '.', '1250'],
    ['999,999', ',', '999999'],
  ])('says that %s can be read in two ways', (text, twofold, whole) => {
    expect(readShape(text)).toMatchObject({ twofold, whole, fraction: '' });
  });

  it.each([
    '',
    '.',
    ',',
    '12.',
    '1,2,3',
    '12,34.5',
    '1.2.3',
    '12 50',
    '1 2345',
    '0,123,456',
    '1,234,56',
    "1 234'567",
    '1,234.567.8',
    '1.234 567',
    '1 234,',
    '-1',
    'a1',
  ])('takes %j for no number', (text) => {
    expect(readShape(text)).toBeNull();
  });
});

describe('observeMarks', () => {
  it('learns from numbers that can be read in one way only', () => {
    const marks = noMarks();
    for (const text of ['12', '1 250', '1,250']) observeMarks(readShape(text)!, marks);
    expect(marks).toEqual(noMarks());
    observeMarks(readShape('1.234,50')!, marks);
    expect(marks).toEqual({ decimal: new Set([',']), grouping: new Set(['.']) });
    observeMarks(readShape('1,234,567')!, marks);
    expect(marks.grouping).toEqual(new Set(['.', ',']));
  });
});

describe('decideTwofold', () => {
  const decide = (mark: TwofoldMark, proved: string, decimals: number, separator: string) => {
    const marks = noMarks();
    for (const text of proved.split(' ').filter((part) => part !== '')) observeMarks(readShape(text)!, marks);
    return decideTwofold(mark, marks, decimals, separator);
  };

  it.each([
    // What other amounts of the sheet prove decides.
    [',', '12.50', 2, ',', 'grouping'],
    [',', '1,234,567', 2, ',', 'grouping'],
    ['.', '12,50', 2, ';', 'grouping'],
    ['.', '1.234,50', 3, ';', 'grouping'],
    [',', '12,5', 3, ';', 'decimal'],
    ['.', '1,234,567', 3, ',', 'decimal'],
    // A mark proved to stand before decimals, in a currency with less than three: no guess.
    ['.', '12.50', 2, ',', null],
    ['.', '1,234,567', 2, ',', null],
    [',', '12,50', 0, ';', null],
    // Proofs that contradict each other prove nothing.
    [',', '12,50 12.50', 2, ';', null],
    // Nothing is proved: three digits may be the decimals of a currency that has three …
    [',', '', 3, ',', null],
    ['.', '', 4, ';', null],
    // … and of no other, but for a mark that the separator speaks for.
    [',', '', 2, ',', 'grouping'],
    ['.', '', 2, ';', 'grouping'],
    ['.', '', 2, ',', null],
    [',', '', 2, ';', null],
    [',', '', 2, '\t', null],
    ['.', '', 2, '\t', null],
    ['.', '', 0, ',', 'grouping'],
    [',', '', 0, ';', 'grouping'],
    [',', '', 0, '\t', 'grouping'],
  ] as const)(
    'mark %s beside "%s" with %d decimals in a sheet with %j: %s',
    (mark, proved, decimals, separator, decision) => {
      expect(decide(mark, proved, decimals, separator)).toBe(decision);
    },
  );
});
