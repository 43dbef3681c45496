import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printable } from '../../src/findings/index.js';

describe('printable', () => {
  it.each([
    ['plain text', 'Hall 3, tray 11', 'Hall 3, tray 11'],
    ['text beyond ASCII', 'Café Größe 自販機 €', 'Café Größe 自販機 €'],
    ['an emoji', 'tea 🍵', 'tea 🍵'],
    ['a backslash', 'C:\\x41', 'C:\\x41'],
    ['the empty text', '', ''],
    ['an escape sequence', '\u001b[2J', '\\x1B[2J'],
    ['NUL, tab, CR and LF', '\0\t\r\n', '\\x00\\x09\\x0D\\x0A'],
    ['DEL and a C1 control', '\u007f\u009b31m', '\\x7F\\x9B31m'],
    ['a soft hyphen', 'a\u00adb', 'a\\xADb'],
    ['a bidi override', '\u202egnp.exe', '\\u{202E}gnp.exe'],
    ['bidi isolates', '\u2066a\u2069', '\\u{2066}a\\u{2069}'],
    ['the arabic letter mark', '\u061c', '\\u{061C}'],
    ['zero-width characters', 'a\u200bb\u200dc\u2060', 'a\\u{200B}b\\u{200D}c\\u{2060}'],
    ['line and paragraph separators', 'a\u2028b\u2029', 'a\\u{2028}b\\u{2029}'],
    ['a byte-order mark', '\ufeffSTX', '\\u{FEFF}STX'],
    ['a lone surrogate', 'a\ud800b', 'a\\u{D800}b'],
    ['a tag character', 'a\u{e0041}', 'a\\u{E0041}'],
  ])('shows %s', (_, text, shown) => {
    expect(printable(text)).toBe(shown);
  });

  it('cuts a long text and says so', () => {
    expect(printable('x'.repeat(61))).toBe(`${'x'.repeat(60)}…`);
    expect(printable('x'.repeat(60))).toBe('x'.repeat(60));
    expect(printable('abcdef', 3)).toBe('abc…');
  });

  it('counts code points and never cuts through one', () => {
    expect(printable('🍵🍵🍵', 2)).toBe('🍵🍵…');
    expect(printable('🍵🍵', 2)).toBe('🍵🍵');
    expect(printable('🍵a', 1)).toBe('🍵…');
  });

  it('is quick on a text of many megabytes', () => {
    expect(printable('\u001b'.repeat(20_000_000), 2)).toBe('\\x1B\\x1B…');
  });

  it('leaves nothing hidden in any text, and is done after one pass', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 80 }), fc.integer({ min: 1, max: 80 }), (text, max) => {
        const shown = printable(text, max);
        // Unicode's own categories: control, format, line and paragraph separator, surrogate.
        expect(shown).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069\u200b-\u200f]/);
        expect(printable(shown, 2000)).toBe(shown);
      }),
    );
  });

  it('leaves no control, separator or lone surrogate of Unicode as it is', () => {
    for (let code = 0; code <= 0xffff; code++) {
      const character = String.fromCharCode(code);
      if (/\p{Cc}|\p{Zl}|\p{Zp}|\p{Cs}|\p{Bidi_Control}/u.test(character)) {
        expect(printable(character), code.toString(16)).toMatch(/^\\(x[0-9A-F]{2}|u\{[0-9A-F]{4}\})$/);
      }
    }
  });
});
