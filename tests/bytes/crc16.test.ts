import { crc16 as packageCrc16 } from 'crc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc16, formatCrc, swapCrcBytes } from '../../src/bytes/index.js';
import { crc16Bitwise } from '../support/crc16-bitwise.js';
import { bytesOf } from '../support/latin1-bytes.js';

const anyBytes = fc.uint8Array({ maxLength: 400 });

describe('crc16', () => {
  it('gives the check value of CRC-16/ARC in the catalogue of parametrised CRC algorithms', () => {
    expect(crc16(bytesOf('123456789'))).toBe(0xbb3d);
  });

  it('is 0 for no bytes, and carries on the value it is given', () => {
    expect(crc16(new Uint8Array())).toBe(0);
    expect(crc16(new Uint8Array(), 0, 0, 0x1234)).toBe(0x1234);
    expect(crc16(bytesOf('789'), 0, 3, crc16(bytesOf('123456')))).toBe(0xbb3d);
  });

  it('agrees with the same CRC taken one bit at a time, and with the npm package crc', () => {
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        expect(crc16(bytes)).toBe(crc16Bitwise(bytes));
        expect(crc16(bytes)).toBe(packageCrc16(Buffer.from(bytes)));
      }),
    );
  });

  it('covers exactly the bytes from start up to end', () => {
    fc.assert(
      fc.property(anyBytes, fc.nat(400), fc.nat(400), (bytes, a, b) => {
        const [start, end] = [Math.min(a, b, bytes.length), Math.min(Math.max(a, b), bytes.length)];
        expect(crc16(bytes, start, end)).toBe(packageCrc16(Buffer.from(bytes.subarray(start, end))));
      }),
    );
  });

  it('may be taken in any two pieces', () => {
    fc.assert(
      fc.property(anyBytes, fc.nat(400), (bytes, at) => {
        const split = Math.min(at, bytes.length);
        expect(crc16(bytes, split, bytes.length, crc16(bytes, 0, split))).toBe(crc16Bitwise(bytes));
      }),
    );
  });

  // Lengths at which a method that takes many bytes at a time could change over to another.
  it.each([7, 8, 9, 15, 16, 17, 31, 32, 33, 63, 64, 65, 127, 128, 129, 1000, 4600, 70_000])('%i bytes', (length) => {
    const bytes = Uint8Array.from({ length }, (_, i) => (i * 197 + (i >> 3) + length) & 0xff);
    expect(crc16(bytes)).toBe(packageCrc16(Buffer.from(bytes)));
    expect(crc16(bytes, 3, length - 2, 0xffff)).toBe(packageCrc16(Buffer.from(bytes.subarray(3, length - 2)), 0xffff));
  });
});

describe('formatCrc', () => {
  it('writes four upper-case hexadecimal digits, most significant first', () => {
    expect(formatCrc(0xbb3d)).toBe('BB3D');
    expect(formatCrc(0)).toBe('0000');
    expect(formatCrc(0xa)).toBe('000A');
  });
});

describe('swapCrcBytes', () => {
  it('exchanges the two bytes, as level 5.0 writes them (manual L0190D, p. 42)', () => {
    expect(swapCrcBytes(0xbb3d)).toBe(0x3dbb);
    expect(swapCrcBytes(0x0001)).toBe(0x0100);
  });

  it('is its own inverse', () => {
    fc.assert(fc.property(fc.nat(0xffff), (crc) => swapCrcBytes(swapCrcBytes(crc)) === crc));
  });
});
