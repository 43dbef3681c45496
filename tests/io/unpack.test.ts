import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { isPacked, unpackCapture } from '../../src/io/unpack.js';

const TEXT = 'PA1*1*150\r\nPA2*12*1800\r\n';
const packed = gzipSync(TEXT);

const textOf = (bytes: Uint8Array, limit?: number): string => {
  const content = unpackCapture(bytes, limit);
  return 'bytes' in content ? `${content.state}: ${Buffer.from(content.bytes).toString('latin1')}` : content.state;
};

describe('unpackCapture', () => {
  it('gives what is not packed as it is, not a copy', () => {
    const bytes = Buffer.from(TEXT);
    expect(unpackCapture(bytes)).toEqual({ state: 'plain', bytes });
    expect('bytes' in unpackCapture(bytes) && (unpackCapture(bytes) as { bytes: Uint8Array }).bytes).toBe(bytes);
    expect(textOf(new Uint8Array())).toBe('plain: ');
    expect(textOf(Uint8Array.of(0x1f))).toBe('plain: \x1f');
  });

  it('unpacks a member, several (RFC 1952, 2.2), and one filled up with zeros', () => {
    expect(textOf(packed)).toBe(`unpacked: ${TEXT}`);
    expect(textOf(Buffer.concat([packed, gzipSync('more\n')]))).toBe(`unpacked: ${TEXT}more\n`);
    expect(textOf(Buffer.concat([packed, Buffer.alloc(600)]))).toBe(`unpacked: ${TEXT}`);
    expect(textOf(gzipSync(''))).toBe('unpacked: ');
  });

  it('unpacks a member written down by hand from RFC 1952 and RFC 1951: a stored block', () => {
    // Header; final stored block of 1 byte; CRC-32 of "a" (E8B7BE43h, common practice as a check value) and its length.
    const member = Buffer.from('1f8b08000000000000ff0101 00feff61 43beb7e8 01000000'.replaceAll(' ', ''), 'hex');
    expect(textOf(member)).toBe('unpacked: a');
  });

  it('tells of one that is damaged, breaks off, or has something else behind it', () => {
    for (let length = 2; length < packed.length; length++) expect(textOf(packed.subarray(0, length))).toBe('broken');
    const damaged = Buffer.from(packed);
    damaged[packed.length - 6]! ^= 1;
    expect(textOf(damaged)).toBe('broken');
    expect(textOf(Buffer.concat([packed, Buffer.from(TEXT)]))).toBe('broken');
    expect(textOf(Buffer.concat([packed, Buffer.alloc(9), packed]))).toBe('broken');
    expect(unpackCapture(damaged)).toMatchObject({ message: expect.stringContaining('damaged') });
  });

  it('stops at a limit', () => {
    expect(textOf(packed, TEXT.length)).toBe(`unpacked: ${TEXT}`);
    expect(unpackCapture(packed, TEXT.length - 1)).toEqual({
      state: 'too-large',
      message: `It is gzip-compressed data that would unpack to more than ${TEXT.length - 1} bytes; it was not unpacked.`,
    });
    expect(textOf(gzipSync(Buffer.alloc(70 * 1024 * 1024)))).toBe('too-large');
  });
});

describe('isPacked', () => {
  it('knows gzip by its two first bytes', () => {
    expect([packed, packed.subarray(0, 2), packed.subarray(0, 1), Buffer.from(TEXT)].map(isPacked)).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});
