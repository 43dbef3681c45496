import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, type JsonValue } from '../../../src/book/store/index.js';

describe('canonicalJson', () => {
  // RFC 8785, section 3.2.2: the input there, and its output with keys in order (section 3.2.3).
  it('writes the example of RFC 8785', () => {
    const text = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`;
    const value = JSON.parse(text) as JsonValue;
    expect(canonicalJson(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  // RFC 8785, section 3.2.3: the keys of its example in the order given there.
  it('sorts keys by UTF-16 code units as RFC 8785 does', () => {
    const value = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    expect(Object.values(JSON.parse(canonicalJson(value).replaceAll('"1":', '"_1":')) as object)).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it('writes equal values the same, whatever order their keys were set in, and reads back as it was', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        const text = canonicalJson(value as JsonValue);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
        expect(canonicalJson(JSON.parse(text) as JsonValue)).toBe(text);
      }),
    );
    expect(canonicalJson({ b: 1, a: { d: 2, c: 3 } })).toBe(canonicalJson({ a: { c: 3, d: 2 }, b: 1 }));
  });

  it('escapes a lone surrogate, so that a file name with one is kept', () => {
    expect(canonicalJson('x\ud800')).toBe('"x\\ud800"');
  });

  it('refuses what JSON can not say', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, undefined, () => 1, { a: undefined }]) {
      expect(() => canonicalJson(value as unknown as JsonValue)).toThrow(TypeError);
    }
  });
});
