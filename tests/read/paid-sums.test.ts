import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PaidSums } from '../../src/read/paid-sums.js';
import { parseText } from '../segments/parse-text.js';

function sumOf(...lines: string[]): { totals: readonly number[]; plain: boolean[]; lineCount: number } {
  const block = parseText(lines.map((line) => `${line}\r\n`).join(''))[0]!;
  const sums = new PaidSums();
  const plain = lines.map((_, line) => sums.add(block, line));
  return { totals: sums.totals, plain, lineCount: sums.lineCount };
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
