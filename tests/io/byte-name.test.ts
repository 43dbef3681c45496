import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeName, hasForeignBytes, mayHaveLostBytes, onDisk } from '../../src/io/byte-name.js';

describe('names by their bytes', () => {
  it('come back as they were, whatever the bytes, and no two become one', () => {
    const bytes = fc.uint8Array({ maxLength: 40 });
    fc.assert(
      fc.property(bytes, bytes, (a, b) => {
        const name = decodeName(Buffer.from(a));
        expect(Buffer.from(onDisk(name))).toEqual(Buffer.from(a));
        expect(decodeName(Buffer.from(b)) === name).toBe(Buffer.from(a).equals(Buffer.from(b)));
      }),
      { numRuns: 2000, seed: 9 },
    );
  });

  it('are plain text where they are UTF-8', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), (text) => {
        fc.pre(!/\p{Surrogate}/u.test(text));
        expect(decodeName(Buffer.from(text))).toBe(text);
        expect(onDisk(text)).toBe(text);
        expect(hasForeignBytes(text)).toBe(false);
      }),
      { numRuns: 500, seed: 9 },
    );
  });

  // PEP 383, "surrogateescape": a byte that cannot be decoded becomes U+DC80 to U+DCFF.
  it('have a byte that is no UTF-8 as a surrogate of its own', () => {
    expect(decodeName(Buffer.from('caf\xe9.dex', 'latin1'))).toBe('caf\udce9.dex');
    // UTF-8 of a surrogate, an overlong slash, a character cut off: none of them is UTF-8 (RFC 3629).
    for (const bytes of [
      [0xed, 0xb3, 0xa9],
      [0xc0, 0xaf],
      [0xe2, 0x82],
    ]) {
      expect(decodeName(Buffer.from(bytes))).toBe(String.fromCharCode(...bytes.map((byte) => 0xdc00 + byte)));
    }
    expect(hasForeignBytes('caf\udce9.dex')).toBe(true);
    expect(mayHaveLostBytes(Buffer.from([0xe9]).toString())).toBe(true);
  });
});
