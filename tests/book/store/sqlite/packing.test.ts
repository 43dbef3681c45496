import { createHash } from 'node:crypto';
import { inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PACKING, packBytes, unpackBytes } from '../../../../src/book/store/sqlite/packing.js';

const large = Buffer.from('PA1*11*150\r\nPA2*12*1800\r\n'.repeat(5000), 'latin1');
/** Bytes that no packing makes smaller. */
const noise = Buffer.concat(Array.from({ length: 3000 }, (_, i) => createHash('sha256').update(String(i)).digest()));

describe('packing', () => {
  it('gives every file back byte for byte', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.integer({ min: 0, max: 500 }), (piece, times) => {
        const bytes = Buffer.concat(Array.from({ length: times }, () => piece));
        const unpacked = unpackBytes(packBytes(bytes), bytes.length);
        expect(unpacked !== null && bytes.equals(unpacked)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('stores a short file as it is and deflates a capture, as any inflater can undo', () => {
    const short = large.subarray(0, 500);
    expect(packBytes(short)).toEqual({ packing: PACKING.plain, bytes: short });
    expect(packBytes(large.subarray(0, 4600)).packing).toBe(PACKING.deflated);
    const packed = packBytes(large);
    expect(packed.packing).toBe(PACKING.deflated);
    expect(packed.bytes.length).toBeLessThan(large.length / 10);
    expect(inflateRawSync(packed.bytes).equals(large)).toBe(true);
  });

  it('stores as it is what deflating does not make smaller', () => {
    const packed = packBytes(noise);
    expect(packed.packing).toBe(PACKING.plain);
    expect(packed.bytes).toBe(noise);
  });

  it('does not unpack what was changed, or grows beyond what was packed', () => {
    const packed = packBytes(large);
    expect(unpackBytes({ ...packed, bytes: packed.bytes.subarray(0, 50) }, large.length)).toBeNull();
    expect(unpackBytes(packed, large.length - 1)).toBeNull();
    expect(unpackBytes(packed, large.length)).not.toBeNull();
  });

  // A file above 4 GiB is kept in small parts; the limit is that of the whole file.
  it('come back from a file larger than any buffer', () => {
    const part = Buffer.from('x'.repeat(100_000));
    expect(unpackBytes(packBytes(part), 5 * 2 ** 30)).toEqual(part);
    expect(unpackBytes(packBytes(part), Number.MAX_SAFE_INTEGER)).toEqual(part);
  });
});
