import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeLatin1, encodeLatin1 } from '../../src/bytes/index.js';

const ALL_BYTES = Uint8Array.from({ length: 256 }, (_, byte) => byte);

describe('decodeLatin1', () => {
  it('gives for every byte the character of the same number, 80h to 9Fh too', () => {
    expect([...decodeLatin1(ALL_BYTES)].map((character) => character.codePointAt(0))).toEqual([...ALL_BYTES]);
  });

  it("agrees with Node's latin1", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.nat(200), fc.nat(200), (bytes, a, b) => {
        const [start, end] = [Math.min(a, b, bytes.length), Math.min(Math.max(a, b), bytes.length)];
        expect(decodeLatin1(bytes, start, end)).toBe(Buffer.from(bytes.subarray(start, end)).toString('latin1'));
      }),
    );
  });

  it('takes text longer than an argument list may be', () => {
    const bytes = Uint8Array.from({ length: 300_001 }, (_, i) => i % 251);
    expect(decodeLatin1(bytes)).toBe(Buffer.from(bytes).toString('latin1'));
  });
});

describe('encodeLatin1', () => {
  it('gives back every byte', () => {
    expect(encodeLatin1(decodeLatin1(ALL_BYTES))).toEqual(ALL_BYTES);
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(encodeLatin1(decodeLatin1(bytes))).toEqual(bytes);
      }),
    );
  });
});
