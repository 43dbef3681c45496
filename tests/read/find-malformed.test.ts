import { describe, expect, it } from 'vitest';
import { indexLines, type LineIndex } from '../../src/read/line-index.js';
import { parseText } from '../segments/parse-text.js';

/** The index of lines written as text, from the second line on to the last but one, to see that only those are taken. */
function indexOf(...lines: string[]): LineIndex {
  const block = parseText(['VA1*9', ...lines, 'CA2*9', ''].join('\r\n'))[0]!;
  return indexLines(block, 1, lines.length + 1);
}

const flawsOf = (...lines: string[]): string[] =>
  indexOf(...lines).malformed.map(({ line, position, what }) => `${line} ${position} ${what}`);

describe('malformed elements', () => {
  it('are none in lines of plain numbers, dates and times', () => {
    expect(
      flawsOf(
        'CA3*1*2**4',
        'PA1*A*100*text*5**7',
        'PA5*261124*1015*1*2',
        'EA3*5*261124*1015*R*000000**R**9*5',
        'VA1',
        'VA1*',
      ),
    ).toEqual([]);
  });

  it('may have a sign', () => {
    expect(flawsOf('CA3*-1*+2', 'PA1*1*-5', 'PA2*+1*-2')).toEqual([]);
    expect(flawsOf('CA3*-', 'CA4*1-', 'CA10*--1')).toEqual(['1 1 not-digits', '2 1 not-digits', '3 1 not-digits']);
  });

  it.each([
    ['CA3*1*x*3', ['1 2 not-digits']],
    ['CA3*1 *2', ['1 1 not-digits']],
    ['CA3*1.5', ['1 1 not-digits']],
    ['CA3*1*2*3*999999999999999', []],
    ['CA3*9007199254740991', []],
    ['CA3*9007199254740992', ['1 1 too-large']],
    ['CA3*1*0009007199254740992*3', ['1 2 too-large']],
    ['CA3*1*2*3*4*5*6*7*8*9*x', ['1 10 not-digits']],
    // Beyond the dictionary's elements everything is the maker's own.
    ['CA3*1*2*3*4*5*6*7*8*9*10*x', []],
    ['PA1*x*y*z*1*q', ['1 2 not-digits', '1 5 not-digits']],
    ['PA5*261399*1015*1', ['1 1 bad-date']],
    ['PA5*261124*2515*1', ['1 2 bad-time']],
    ['EA4*x*y', ['1 1 bad-date', '1 2 bad-time']],
    ['ID5*261124*1015*x', ['1 3 not-digits']],
  ])('%s: %j', (line, expected) => {
    expect(flawsOf(line)).toEqual(expected);
  });

  it('are found in products too, and more than once a line', () => {
    expect(flawsOf('PA1*1', 'PA2*1*x*3*y', 'PA1*2', 'PA2*1*2*3*4*5*6*7*z')).toEqual([
      '2 2 not-digits',
      '2 4 not-digits',
      '4 8 not-digits',
    ]);
  });
});
