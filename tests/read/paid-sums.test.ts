import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PaidSummer } from '../../src/read/paid-sums.js';
import { parseText } from '../segments/parse-text.js';

function sumOf(...lines: string[]): { totals: readonly number[]; plain: boolean[]; lineCount: number } {
  const block = parseText(lines.map((line) => `${line}\r\n`).join(''))[0]!;
  const sums = new PaidSummer();
  sums.start();
  const plain = lines.map((_, line) => sums.addPaid(block, line));
  const { totals, lineCount } = sums.end();
  return { totals, plain, lineCount };
}

describe('paid sums', () => {
  it('add up the first four elements', () => {
    expect(sumOf('PA2*1*100*2*200*9*9*9*9', 'PA2*10*1000*20*2000')).toEqual({
      totals: [11, 1100, 22, 2200],
      plain: [true, true],
      lineCount: 2,
    });
  });

  it.each([
    ['PA2*1*100', [1, 100, NaN, NaN], true],
    ['PA2*1**3*4', [1, NaN, 3, 4], true],
    ['PA2', [NaN, NaN, NaN, NaN], true],
    ['PA2*', [NaN, NaN, NaN, NaN], true],
    ['PA2*-1*+5*3*4', [-1, 5, 3, 4], false],
    ['PA2*x*5x*3*4', [NaN, NaN, 3, 4], false],
    ['PA2*1*2*3*4*x', [1, 2, 3, 4], false],
    ['PA2*9007199254740991*1*1*1', [9007199254740991, 1, 1, 1], false],
    ['PA2*90071992547409910*1*1*1', [NaN, 1, 1, 1], false],
  ])('%s gives %j', (line, totals, isPlain) => {
    expect(sumOf(line)).toEqual({ totals, plain: [isPlain], lineCount: 1 });
  });

  describe('by price list', () => {
    const differs = (...columns: string[][]): boolean => {
      const lines = columns.flat();
      const block = parseText(lines.map((line) => `${line}\r\n`).join(''))[0]!;
      const sums = new PaidSummer();
      sums.start();
      let at = 0;
      for (const column of columns) {
        for (const line of column) {
          const isPlain = line.startsWith('PA2') ? sums.addPaid(block, at) : sums.addListed(block, at);
          expect(isPlain).toBe(!line.includes('x'));
          at++;
        }
        sums.endColumn();
      }
      return sums.end().mayListsDiffer;
    };

    it.each([
      ['one list', [['PA2*10*1500*2*300', 'PA7*1*CA*0*150*10*1500*2*300']], false],
      ['one list without a price', [['PA2*10*1500*2*300', 'PA7*1*CA*0**10*1500*2*300']], false],
      ['one list written otherwise', [['PA2*10*1500*2*300', 'PA7*1*CA*0*150*010*1500*2*300']], false],
      ['one list before PA2', [['PA7*1*CA*0*150*10*1500*2*300', 'PA2*10*1500*2*300']], false],
      ['two lists', [['PA7*1*CA*0*150*6*900*2*300', 'PA2*10*1500*2*300', 'PA7*1*DA*0*150*4*600*0*0']], false],
      [
        'a list that has it all and one of zeros',
        [['PA2*1*9*1*9', 'PA7*1*CA*0*9*1*9*1*9', 'PA7*1*DA*0*9*0*0*0*0']],
        false,
      ],
      ['a list that has it all and one more', [['PA2*1*9*1*9', 'PA7*1*CA*0*9*1*9*1*9', 'PA7*1*DA*0*9*0*0*0*1']], true],
      [
        'lists of several columns',
        [
          ['PA2*1*9*1*9', 'PA7*1*CA*0*9*1*9*1*9'],
          ['PA2*2*8*2*8', 'PA7*1*CA*0*4*1*4*1*4', 'PA7*1*DA*0*4*1*4*1*4'],
        ],
        false,
      ],
      ['a number off', [['PA2*10*1500*2*300', 'PA7*1*CA*0*150*9*1500*2*300']], true],
      ['a number off of another length', [['PA2*10*1500*2*300', 'PA7*1*CA*0*150*1000*1500*2*300']], true],
      [
        'a value off in the last column',
        [
          ['PA2*1*1*1*1', 'PA7*1*CA*0*1*1*1*1*1'],
          ['PA2*1*1*1*1', 'PA7*2*CA*0*1*1*1*1*0'],
        ],
        true,
      ],
      [
        'a value off in the first column',
        [
          ['PA2*1*1*1*2', 'PA7*1*CA*0*1*1*1*1*1'],
          ['PA2*1*1*1*1', 'PA7*2*CA*0*1*1*1*1*1'],
        ],
        true,
      ],
      ['no PA2', [['PA7*1*CA*0*150*10*1500*2*300']], false],
      ['no PA7', [['PA2*10*1500*2*300'], ['PA2*1*1*1*1', 'PA7*2*CA*0*1*1*1*1*1']], false],
      // What is not known may differ: the sums are made then.
      ['an element missing', [['PA2*10*1500', 'PA7*1*CA*0*150*10*1500*2*300']], true],
      ['all elements missing', [['PA2*10*1500*2*300', 'PA7*1*CA']], true],
      ['an element that is no number', [['PA2*10*1500*2*300', 'PA7*1*CA*0*150*x*1500*2*300']], true],
      ['a copy of what is no number', [['PA2*x*1500*2*300', 'PA7*1*CA*0*150*x*1500*2*300']], true],
      ['a price that is no number', [['PA2*10*1500*2*300', 'PA7*1*CA*0*x*10*1500*2*300']], false],
      ['a price too long', [['PA2*10*1500*2*300', 'PA7*1*CA*0*x123456789012345678*10*1500*2*300']], false],
    ])('%s', (_, columns, expected) => {
      expect(differs(...columns)).toBe(expected);
    });
  });

  it('agree with sums of the split text', () => {
    const cell = fc.oneof(
      fc.integer({ min: -99, max: 999_999 }).map(String),
      fc.constantFrom('', 'x', '1a', '+3', '0012'),
    );
    const lines = fc.array(fc.array(cell, { maxLength: 9 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(lines, (rows) => {
        const expected = [0, 1, 2, 3].map((at) =>
          rows.reduce((sum, row) => sum + (/^[+-]?\d+$/.test(row[at] ?? '') ? Number(row[at]) : Number.NaN), 0),
        );
        const { totals } = sumOf(...rows.map((row) => ['PA2', ...row].join('*')));
        expect(totals.map((total) => total + 0)).toEqual(expected.map((total) => total + 0));
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});
