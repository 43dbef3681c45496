import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutText, padText, textWidth } from '../../../src/report/text/text-width.js';

describe('textWidth', () => {
  // Unicode Standard Annex #11, East Asian Width: W and F take two places.
  it('gives wide characters two places and combined ones one', () => {
    expect(textWidth('Oat bar')).toBe(7);
    expect(textWidth('Käsestange')).toBe(10);
    expect(textWidth('ka\u0308se')).toBe(4);
    expect(textWidth('緑茶')).toBe(4);
    expect(textWidth('ＡＢ')).toBe(4);
    expect(textWidth('')).toBe(0);
  });
});

describe('cutText', () => {
  it('leaves what fits, and marks what it cuts', () => {
    expect(cutText('Oat bar', 7)).toBe('Oat bar');
    expect(cutText('Oat bar', 6)).toBe('Oat b…');
    expect(cutText('Oat bar', 5)).toBe('Oat…');
    expect(cutText('緑茶緑茶', 5)).toBe('緑茶…');
  });

  it('is never wider than asked', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 1, max: 30 }), (text, width) => {
        expect(textWidth(cutText(text, width))).toBeLessThanOrEqual(width);
      }),
      { seed: 3 },
    );
  });
});

describe('padText', () => {
  it('fills up on either side, and never cuts', () => {
    expect(padText('ab', 4)).toBe('ab  ');
    expect(padText('ab', 4, 'right')).toBe('  ab');
    expect(padText('緑', 4)).toBe('緑  ');
    expect(padText('abcdef', 4)).toBe('abcdef');
  });
});
