import { crc16 } from 'crc';
import { describe, expect, it } from 'vitest';
import { buildCapture, buildTransmission, bytesOf, textOf } from '../support/build-capture.js';
import { crc16Bitwise, swapBytes16, writeHex16 } from '../support/crc16-bitwise.js';

const SEGMENTS = ['ID1*S1*M1', 'VA1*100*1'];
// The outside judge: the npm package, over the text that the CRC is to cover.
const crcOf = (text: string): string => writeHex16(crc16(Buffer.from(bytesOf(text))));
const covered = 'ST*001*0001\r\nID1*S1*M1\r\nVA1*100*1\r\n';

describe('crc16Bitwise', () => {
  it('gives the check value of the catalogue of parametrised CRC algorithms', () => {
    expect(crc16Bitwise(bytesOf('123456789'))).toBe(0xbb3d);
  });

  it('agrees with the npm package crc', () => {
    for (let length = 0; length < 600; length += 7) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 197 + length) & 0xff);
      expect(crc16Bitwise(bytes)).toBe(crc16(Buffer.from(bytes)));
    }
  });
});

describe('buildCapture', () => {
  it('fills in the envelope, the counts and the CRC', () => {
    expect(textOf(buildCapture(SEGMENTS))).toBe(
      `DXS*TST0000001*VA*V1/1*1\r\n${covered}G85*${crcOf(covered)}\r\nSE*5*0001\r\nDXE*1*1\r\n`,
    );
  });

  it('writes each choice of CRC', () => {
    const crcIn = (crc: string): string | undefined => /G85\*(\w+)/.exec(textOf(buildCapture(SEGMENTS, { crc })))?.[1];
    expect(crcIn('lower')).toBe(crcOf(covered).toLowerCase());
    expect(crcIn('swapped')).toBe(writeHex16(swapBytes16(crc16(Buffer.from(bytesOf(covered))))));
    expect(crcIn('from-dxs')).toBe(crcOf(`DXS*TST0000001*VA*V1/1*1\r\n${covered}`));
    expect(crcIn('without-last-eol')).toBe(crcOf(covered.slice(0, -2)));
    expect(crcIn('12')).toBe('12');
    expect(crcIn('none')).toBeUndefined();
    expect(textOf(buildCapture(SEGMENTS, { crc: 'none' }))).toContain('SE*4*0001');
    expect([crcOf(covered), writeHex16(swapBytes16(crc16(Buffer.from(bytesOf(covered)))))]).not.toContain(
      crcIn('wrong'),
    );
  });

  it('keeps the CRC of the CR LF text when the line endings were changed on the way', () => {
    const lineFeeds = covered.replaceAll('\r\n', '\n');
    expect(textOf(buildCapture(SEGMENTS, { eol: '\n' }))).toContain(`G85*${crcOf(covered)}\n`);
    expect(textOf(buildCapture(SEGMENTS, { eol: '\n', crcOver: 'as-sent' }))).toContain(`G85*${crcOf(lineFeeds)}\n`);
  });

  it('leaves what a reader appended to ST out of the CRC unless told', () => {
    const appended = covered.replace('0001', '0001*261120101500');
    const plain = textOf(buildCapture(SEGMENTS, { stAppend: '261120101500' }));
    expect(plain).toContain(`${appended}G85*${crcOf(covered)}\r\n`);
    const coveredToo = textOf(buildCapture(SEGMENTS, { stAppend: '261120101500', appendCovered: true }));
    expect(coveredToo).toContain(`${appended}G85*${crcOf(appended)}\r\n`);
  });

  it('departs from what is right where told', () => {
    const odd = buildCapture(SEGMENTS, {
      header: 'READER 7',
      seCount: 9,
      seControl: '0002',
      setCount: 3,
      padding: new Uint8Array([0x1a]),
    });
    expect(textOf(odd)).toMatch(/^READER 7\r\nDXS.*\r\nSE\*9\*0002\r\nDXE\*1\*3\r\n\x1a$/s);
    expect(textOf(buildCapture(SEGMENTS, { envelope: false }))).toMatch(/^ST.*SE\*5\*0001\r\n$/s);
    expect(textOf(buildCapture(SEGMENTS, { dxe: null }))).toMatch(/^DXS.*SE\*5\*0001\r\n$/s);
    expect(textOf(buildCapture(SEGMENTS, { cutAt: 10 }))).toBe('DXS*TST000');
    expect(textOf(buildCapture(SEGMENTS, { cutAt: -2 }))).toMatch(/DXE\*1\*1$/);
  });
});

describe('buildTransmission', () => {
  it('numbers the sets and counts them', () => {
    const text = textOf(buildTransmission([{ segments: SEGMENTS }, { segments: ['ID1*S2'] }]));
    expect(text).toMatch(
      /ST\*001\*0001\r\n.*SE\*5\*0001\r\nST\*001\*0002\r\nID1\*S2\r\n.*SE\*4\*0002\r\nDXE\*1\*2\r\n$/s,
    );
  });
});
