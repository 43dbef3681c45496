import { describe, expect, it } from 'vitest';
import { STYLE_SHEET } from '../../../src/pages/frame/index.js';
import { DARK, LIGHT } from '../../../src/pages/frame/palette.js';

describe('the style sheet', () => {
  it('has no character that means anything in HTML, since it is rendered as text', () => {
    expect(STYLE_SHEET).not.toMatch(/[<>&"]/);
  });

  it('fetches nothing', () => {
    expect(STYLE_SHEET).not.toMatch(/url\(|@import|@font-face/);
  });

  it('takes every colour from the palette, whose contrast is checked', () => {
    const named = new Set([...Object.values(LIGHT), ...Object.values(DARK)]);
    expect(STYLE_SHEET.match(/#[0-9a-f]{3,8}\b/gi)!.filter((colour) => !named.has(colour))).toEqual([]);
    const used = STYLE_SHEET.match(/var\(--[\w-]+\)/g)!.map((name) => name.slice(6, -1));
    const known = Object.keys(LIGHT).map((name) => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`));
    expect(used.filter((name) => !known.includes(name))).toEqual([]);
  });

  it('is dark on a screen only, never on paper', () => {
    expect(STYLE_SHEET.match(/[^@]*prefers-color-scheme:dark/g)).toEqual([
      'media screen and (prefers-color-scheme:dark',
    ]);
  });

  it('opens and closes as many blocks', () => {
    expect(STYLE_SHEET.split('{')).toHaveLength(STYLE_SHEET.split('}').length);
  });
});
