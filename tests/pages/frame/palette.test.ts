import { describe, expect, it } from 'vitest';
import { DARK, LIGHT, type Palette, SHAPE_PAIRS, TEXT_PAIRS } from '../../../src/pages/frame/palette.js';

/** Relative luminance of a colour in sRGB, as W3C's WCAG 2.2 defines it. */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((place) => {
    const share = Number.parseInt(colour.slice(place, place + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

/** Contrast ratio of two colours, as W3C's WCAG 2.2 defines it. */
function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((one, other) => one - other);
  return (light! + 0.05) / (dark! + 0.05);
}

const below = (palette: Palette, pairs: typeof TEXT_PAIRS, least: number): string[] =>
  pairs
    .filter(([one, other]) => contrast(palette[one], palette[other]) < least)
    .map(([one, other]) => `${one} on ${other}: ${contrast(palette[one], palette[other]).toFixed(2)}`);

describe('the contrast ratio of WCAG 2.2', () => {
  it('is 21 for black on white and 1 for a colour on itself', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#0b4a6b', '#0b4a6b')).toBe(1);
  });

  it('lies on either side of 4.5 for the two greys next to it (#767676 and #777777, common knowledge)', () => {
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });
});

describe.each([
  ['light', LIGHT],
  ['dark', DARK],
])('the %s palette', (_, palette) => {
  it('shows all text with at least 4.5 to 1 (success criterion 1.4.3)', () => {
    expect(below(palette, TEXT_PAIRS, 4.5)).toEqual([]);
  });

  it('shows what carries meaning with at least 3 to 1 (success criterion 1.4.11)', () => {
    expect(below(palette, SHAPE_PAIRS, 3)).toEqual([]);
  });
});
