import { describe, expect, it } from 'vitest';
import { readCaptures } from '../../src/read/index.js';
import { buildCapture, bytesOf, joinCaptures } from '../support/build-capture.js';
import { GOOD_SEGMENTS } from '../support/check-cases.js';

const A = buildCapture(GOOD_SEGMENTS);

describe('findings of a file', () => {
  const findingsOf = (bytes: Uint8Array): ReturnType<typeof readCaptures>['findings'] => readCaptures(bytes).findings;

  it('say what is wrong with a trailer', () => {
    const bytes = buildCapture(GOOD_SEGMENTS, { dxe: 'DXE*2*4' });
    expect(findingsOf(bytes)).toMatchObject([
      { code: 'control-number', element: 'DXE01', expected: '1', received: '2', line: 28, severity: 'doubt' },
      {
        code: 'set-count',
        element: 'DXE02',
        expected: '1',
        received: '4',
        message: 'DXE says 4 for the number of sets; 1 came, so a read is missing.',
      },
    ]);
    expect(findingsOf(buildCapture(GOOD_SEGMENTS, { dxe: 'DXE' }))).toMatchObject([
      { code: 'control-number', received: 'nothing' },
      { code: 'set-count', received: 'nothing', message: 'DXE says nothing for the number of sets; 1 came.' },
    ]);
    expect(findingsOf(buildCapture(GOOD_SEGMENTS, { dxe: 'DXE*1*0' }))).toMatchObject([
      { message: 'DXE says 0 for the number of sets; 1 came.' },
    ]);
    expect(findingsOf(buildCapture(GOOD_SEGMENTS, { dxsLine: 'DXS', dxe: 'DXE**x' }))).toMatchObject([
      { code: 'set-count', received: 'x' },
    ]);
    expect(findingsOf(buildCapture(GOOD_SEGMENTS, { dxsLine: 'DXS*A*VA*V1/1*', dxe: 'DXE*5*1' }))).toMatchObject([
      { code: 'control-number', expected: 'nothing' },
    ]);
  });

  it('tell a missing DXE as a doubt, and a missing read as a fault', () => {
    expect(findingsOf(buildCapture(GOOD_SEGMENTS, { dxe: null }))).toMatchObject([
      { code: 'cut-short', severity: 'doubt', segment: 'DXS', line: 1 },
    ]);
    expect(findingsOf(bytesOf('DXS*A*VA*V1/1*1\r\n'))).toMatchObject([{ code: 'cut-short', severity: 'fault' }]);
    expect(findingsOf(bytesOf('DXS*A*VA*V1/1*1\r\nDXE*1*0\r\n'))).toMatchObject([
      { code: 'missing-segment', severity: 'fault' },
    ]);
    // A cut set says so itself.
    expect(findingsOf(A.slice(0, 200))).toEqual([]);
  });

  it('show what was passed over, harmless and short', () => {
    expect(findingsOf(joinCaptures(bytesOf(`\u001b[2J${'x'.repeat(200)}\r\nmore\r\n`), A))).toMatchObject([
      {
        code: 'junk-before',
        line: 1,
        offset: 0,
        message: expect.stringMatching(
          /^2 lines are no part of the capture and passed over; the first reads "\\x1B\[2Jx+…"\.$/,
        ),
      },
    ]);
  });

  it.each([
    ['an empty file', '', 'empty-file', /0 bytes/],
    ['a JPEG picture', '\u00ff\u00d8\u00ff\u00e0\u0000\u0010JFIF', 'not-a-capture', /a JPEG picture/],
    ['UTF-16', '\u00ff\u00feD\u0000X\u0000S\u0000*\u0000\r\u0000\n\u0000', 'not-a-capture', /UTF-16/],
    ['NULs only', '\u0000'.repeat(3000), 'not-a-capture', /nothing but NUL bytes/],
    ['a letter', 'Dear sir,\r\nthank you.\r\n', 'not-a-capture', /some other text/],
    ['a trailer alone', 'DXE*1*1\r\n', 'not-a-capture', /some other text/],
    ['blank lines', '\r\n\r\n', 'not-a-capture', /some other text/],
  ])('say that %s is no capture', (_, text, code, message) => {
    const finding = findingsOf(bytesOf(text)).find((one) => one.code === code);
    expect(finding).toMatchObject({ severity: 'fault', advice: expect.any(String) });
    expect(finding!.message).toMatch(message);
  });
});
