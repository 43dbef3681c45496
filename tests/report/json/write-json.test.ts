import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeJson } from '../../../src/report/index.js';

describe('writeJson', () => {
  it('writes one line that any JSON reader takes back unchanged', () => {
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
        const text = writeJson(value);
        expect(text).not.toMatch(/[\r\n]/);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
      { seed: 5 },
    );
  });

  it('holds no character that a terminal acts on or hides', () => {
    const text = writeJson({ text: '\u001b[2J\u009b2J\u202eabc\u2028\ufeff\u{e0041}' });
    expect(text).toBe('{"text":"\\u001b[2J\\u009b2J\\u202eabc\\u2028\\ufeff\\udb40\\udc41"}');
    expect(text).toMatch(/^[\x20-\x7e]*$/);
  });
});
