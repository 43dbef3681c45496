import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textWidth } from '../../../src/report/text/text-width.js';
import { hangText, joinParts, wrapText } from '../../../src/report/text/wrap-text.js';

describe('wrapText', () => {
  it('breaks between words, and cuts only what is longer than a line', () => {
    expect(wrapText('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrapText('one two three', 80)).toEqual(['one two three']);
    expect(wrapText('abcdefghij kl', 4)).toEqual(['abcd', 'efgh', 'ij', 'kl']);
    expect(wrapText('', 10)).toEqual(['']);
  });

  it('keeps every character but spaces, in lines that fit', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary-ascii' }), fc.integer({ min: 2, max: 30 }), (text, width) => {
        const lines = wrapText(text, width);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(textWidth(line)).toBeLessThanOrEqual(width);
      }),
      { seed: 4 },
    );
  });
});

describe('hangText', () => {
  it('puts later lines under the text of the first', () => {
    expect(hangText('Do: ', 'read the machine again', 12)).toEqual(['Do: read the', '    machine', '    again']);
  });
});

describe('joinParts', () => {
  it('sets parts apart by an empty line', () => {
    expect(joinParts([['a', 'b'], ['c']])).toEqual(['a', 'b', '', 'c']);
    expect(joinParts([])).toEqual([]);
  });
});
