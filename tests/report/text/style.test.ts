import { describe, expect, it } from 'vitest';
import { PLAIN_STYLE, TERMINAL_STYLE } from '../../../src/report/text/style.js';

describe('styles', () => {
  // ECMA-48, Select Graphic Rendition: 1 bold, 2 faint, 22 normal intensity.
  it('set words off by weight on a terminal, and not at all elsewhere', () => {
    expect(TERMINAL_STYLE.bold('a')).toBe('\u001b[1ma\u001b[22m');
    expect(TERMINAL_STYLE.dim('a')).toBe('\u001b[2ma\u001b[22m');
    expect([PLAIN_STYLE.bold('a'), PLAIN_STYLE.dim('a')]).toEqual(['a', 'a']);
  });
});
