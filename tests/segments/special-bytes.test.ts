import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findSpecialBytes, SPAN } from '../../src/segments/special-bytes.js';

function findPlainly(bytes: Uint8Array, at: number, end: number): number[] {
  const indexes = Array.from({ length: Math.min(SPAN, end - at) }, (_, i) => i);
  return indexes.filter((i) => bytes[at + i]! <= 0x2a);
}

const bitsOf = (mask: number): number[] => Array.from({ length: 32 }, (_, i) => i).filter((i) => (mask >>> i) & 1);

describe('findSpecialBytes', () => {
  it('finds every byte of 2Ah and below, and no other, at every place', () => {
    for (let byte = 0; byte < 256; byte++) {
      for (let place = 0; place < SPAN; place++) {
        // Neighbours that could borrow or carry: the lowest and the highest.
        for (const others of [0x41, 0x00, 0x2a, 0x2b, 0x7f, 0x80, 0xff]) {
          const bytes = new Uint8Array(SPAN).fill(others);
          bytes[place] = byte;
          const found = bitsOf(findSpecialBytes(new DataView(bytes.buffer), 0, SPAN));
          expect(found.includes(place)).toBe(byte <= 0x2a);
          expect(found.length - Number(byte <= 0x2a)).toBe(others <= 0x2a ? SPAN - 1 : 0);
        }
      }
    }
  });

  it('finds them from any place and up to any end', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 100 }), fc.nat(100), fc.nat(100), (bytes, a, b) => {
        const [at, end] = [Math.min(a, b, bytes.length), Math.min(Math.max(a, b), bytes.length)];
        const view = new DataView(bytes.slice().buffer);
        expect(bitsOf(findSpecialBytes(view, at, end))).toEqual(findPlainly(bytes, at, end));
      }),
      { numRuns: 2000 },
    );
  });
});
