import { describe, expect, it } from 'vitest';
import { sniffContent } from '../../src/read/sniff-content.js';
import { bytesOf } from '../support/build-capture.js';

const ofText = (text: string): string => sniffContent(bytesOf(text));

// Signatures as the formats publish them.
describe('what a file looks like', () => {
  it.each([
    ['\u00ff\u00d8\u00ff\u00e0', 'a JPEG picture'],
    ['\u0089PNG\r\n', 'a PNG picture'],
    ['GIF89a', 'a GIF picture'],
    ['%PDF-1.7', 'a PDF document'],
    ['PK\u0003\u0004', 'a ZIP archive or an office document'],
    ['\u001f\u008b\u0008', 'gzip-compressed data'],
    ['\u00ff\u00feD\u0000X\u0000', 'text in UTF-16 (two bytes a character)'],
    ['\u00fe\u00ff\u0000D', 'text in UTF-16 (two bytes a character)'],
    ['D\u0000X\u0000S\u0000*\u0000', 'text in UTF-16 (two bytes a character), or binary data'],
    ['\u0000\u0000\u0000', 'nothing but NUL bytes'],
    ['\u0001\u0002abc\u0003\u0004', 'binary data'],
    ['Dear sir,\r\n\tthank you.', 'some other text'],
  ])('%j: %s', (head, expected) => {
    expect(ofText(head)).toBe(expected);
  });
});
