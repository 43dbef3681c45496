import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeText } from '../../src/sheets/decode-text.js';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string, isLittle: boolean): Uint8Array => {
  const little = Buffer.from(`\ufeff${text}`, 'utf16le');
  return new Uint8Array(isLittle ? little : little.swap16());
};

describe('decodeText', () => {
  it('takes UTF-8 as it is, and says nothing of it', () => {
    expect(decodeText(utf8('Größe €'))).toEqual({ text: 'Größe €', coding: null });
  });

  it('takes the byte-order mark of UTF-8 away', () => {
    expect(decodeText(bytes(0xef, 0xbb, 0xbf, 0x61))).toEqual({
      text: 'a',
      coding: 'text in UTF-8 with a byte-order mark',
    });
  });

  it('takes UTF-16 of either order by its mark', () => {
    expect(decodeText(utf16('Größe €', true))).toEqual({ text: 'Größe €', coding: 'text in UTF-16 (low byte first)' });
    expect(decodeText(utf16('Größe €', false))).toEqual({
      text: 'Größe €',
      coding: 'text in UTF-16 (high byte first)',
    });
  });

  it('takes bytes that are no UTF-8 as windows-1252', () => {
    const decoded = decodeText(bytes(0x80, 0x20, 0x47, 0x72, 0xf6, 0xdf, 0x65));
    expect(decoded).toEqual({ text: '€ Größe', coding: 'text in windows-1252, since it is no valid UTF-8' });
  });

  it('takes a false mark of UTF-8 away', () => {
    expect(decodeText(bytes(0xef, 0xbb, 0xbf, 0x61, 0xf6))).toMatchObject({
      text: 'aö',
      coding: expect.stringContaining('windows-1252'),
    });
  });

  // Code points of index windows-1252 in the WHATWG Encoding Standard, from memory.
  it.each([
    [0x80, 0x20ac],
    [0x81, 0x0081],
    [0x85, 0x2026],
    [0x8a, 0x0160],
    [0x8e, 0x017d],
    [0x91, 0x2018],
    [0x92, 0x2019],
    [0x95, 0x2022],
    [0x96, 0x2013],
    [0x99, 0x2122],
    [0x9c, 0x0153],
    [0x9e, 0x017e],
    [0x9f, 0x0178],
    [0xa0, 0x00a0],
    [0xff, 0x00ff],
  ])('reads byte %i of windows-1252', (byte, codePoint) => {
    // A lone C3h, which UTF-8 would have to go on from, makes sure that the bytes are no UTF-8.
    expect(decodeText(bytes(0x78, byte, 0xc3))).toMatchObject({ text: `x${String.fromCodePoint(codePoint)}Ã` });
  });

  it('reads long windows-1252', () => {
    const decoded = decodeText(new Uint8Array(100_000).fill(0xe9));
    expect(decoded.text).toBe('é'.repeat(100_000));
  });

  it('takes text with or without a mark', () => {
    expect(decodeText('\ufeffa')).toEqual({ text: 'a', coding: null });
    expect(decodeText('a')).toEqual({ text: 'a', coding: null });
  });

  it.each([
    ['no bytes', bytes(), 'is empty'],
    ['no text', '', 'is empty'],
    ['blanks', ' \r\n\t\n', 'is empty'],
    ['a lone mark', bytes(0xef, 0xbb, 0xbf), 'is empty'],
    [
      'a zip archive',
      bytes(0x50, 0x4b, 3, 4, 0x14, 0),
      'is a zip archive, the form in which spreadsheet programs keep their own files, and no CSV text',
    ],
    ['NULs', bytes(0, 0, 0, 0), 'holds NUL characters, so it is no text'],
    ['a NUL in text', 'machine\0', 'holds NUL characters, so it is no text'],
    [
      'a picture',
      bytes(0xff, 0xd8, 0xff, 0xe0, 0, 0x10, 0x4a, 0x46, 0x49, 0x46, 0),
      'holds NUL characters, so it is no text',
    ],
    [
      'UTF-16 without a mark',
      bytes(0x61, 0, 0x2c, 0, 0x62, 0),
      'has a NUL beside almost every character, as UTF-16 text without its byte-order mark has',
    ],
    [
      'half a character of UTF-16',
      bytes(0xff, 0xfe, 0x61, 0, 0x62),
      'begins as UTF-16 (low byte first) and does not go on so',
    ],
    ['half a pair of UTF-16', bytes(0xfe, 0xff, 0xd8, 0), 'begins as UTF-16 (high byte first) and does not go on so'],
  ])('refuses %s', (_, content, problem) => {
    expect(decodeText(content)).toEqual({ text: null, problem });
  });

  it('gives back any text written as UTF-8 or UTF-16', () => {
    const text = fc
      .string({ unit: 'grapheme', minLength: 1 })
      .filter((s) => s.trim() !== '' && !/[\0\ufeff]/.test(s) && !s.startsWith('PK'));
    fc.assert(
      fc.property(text, (original) => {
        expect(decodeText(utf8(original)).text).toBe(original);
        expect(decodeText(utf16(original, true)).text).toBe(original);
        expect(decodeText(utf16(original, false)).text).toBe(original);
      }),
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (content) => {
        const decoded = decodeText(content);
        expect(decoded.text === null || !decoded.text.includes('\0')).toBe(true);
      }),
    );
  });
});
