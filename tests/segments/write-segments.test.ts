import { describe, expect, it } from 'vitest';
import { parseSegments, writeSegments } from '../../src/segments/index.js';
import { bytesOf, textOf } from '../support/latin1-bytes.js';

describe('writeSegments', () => {
  it('gives back the file byte for byte, with its odd endings, blank lines and padding', () => {
    const text = 'READER 7\n\r\nST*001*0001  \r\nPA1*\xe9**\r\r\nSE*3*0001\0\0\x1a';
    expect(textOf(writeSegments(parseSegments(bytesOf(text))))).toBe(text);
  });

  it('gives back all 256 bytes', () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, byte) => byte);
    expect(writeSegments(parseSegments(bytes))).toEqual(bytes);
  });

  it('gives nothing for no blocks', () => {
    expect(writeSegments([])).toEqual(new Uint8Array());
  });
});
