import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { layCheck } from '../../../src/report/index.js';
import { PLAIN_STYLE, TERMINAL_STYLE } from '../../../src/report/text/style.js';
import { buildCapture, buildTransmission, bytesOf } from '../../support/build-capture.js';

const SEGMENTS = ['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'ID5*261124*1015', 'CB1*B1', 'VA1*100*1'];
const lay = (bytes: Uint8Array) => layCheck(checkCapture('a.dex', bytes), PLAIN_STYLE);

describe('layCheck', () => {
  it('begins with the verdict, then shows what it rests on', () => {
    expect(lay(buildCapture(SEGMENTS))).toEqual([
      'Sound: nothing to do.',
      '  a.dex',
      '  machine    asset A1, serial S1, model M1',
      '  clock      2026-11-24 10:15',
      '  segments   8',
      '  integrity  exact',
      '  columns    0',
      '  money      EUR, 2 decimals',
    ]);
  });

  it('says what a read does not say', () => {
    const lines = lay(buildCapture(['VA1*100*1'], { crc: 'none' }));
    expect(lines).toContain('  machine    it does not say');
    expect(lines).toContain('  clock      time not known');
    expect(lines).toContain('  integrity  none to check against');
    expect(lines).toContain('  money      not known');
  });

  it('shows the values that do not fit', () => {
    const damaged = lay(buildCapture(SEGMENTS, { crc: '0000' }));
    expect(damaged.find((line) => line.includes('integrity'))).toMatch(
      /^ {2}integrity {2}damaged \(0000, bytes give [0-9A-F]{4}\)$/,
    );
    const count = lay(buildCapture(SEGMENTS, { seCount: 99 }));
    expect(count).toContain('  segments   8, 99 stated');
    const cut = lay(buildCapture(SEGMENTS, { cutAt: -40 }));
    expect(cut.find((line) => line.startsWith('  segments'))).toMatch(/none stated, cut short$/);
    const headless = lay(bytesOf('ID1*S1*M1\r\nG85*1234\r\nSE*3*0001\r\n'));
    expect(headless.find((line) => line.startsWith('  integrity'))).toContain('bytes give nothing');
  });

  it('lists the reads of a file with several, and counts those that would be too many', () => {
    const two = lay(buildTransmission([{ segments: SEGMENTS }, { segments: ['ID1*S2*M2', 'CB1*B1', 'VA1*1*1'] }]));
    expect(two.slice(2, 5)).toEqual([
      '  read  machine  clock             segments  integrity  columns',
      '     1  A1       2026-11-24 10:15         8  exact            0',
      '     2  S2       time not known           6  exact            0',
    ]);
    const many = lay(buildTransmission(Array.from({ length: 22 }, () => ({ segments: ['CB1*B1'] }))));
    expect(many).toContain('  and 2 more reads; --json lists them all.');
    expect(lay(bytesOf(''))).toHaveLength(6);
  });

  it('numbers the reads of a later part of a file from where it begins', () => {
    const check = checkCapture('a.dex', buildTransmission([{ segments: SEGMENTS }, { segments: SEGMENTS }]));
    expect(layCheck({ ...check, firstRead: 5000 }, PLAIN_STYLE)[3]).toMatch(/^ {2}5001 {2}A1/);
  });

  it('sets off the verdict', () => {
    expect(layCheck(checkCapture('a.dex', buildCapture(SEGMENTS)), TERMINAL_STYLE)[0]).toBe(
      '\u001b[1mSound: nothing to do.\u001b[22m',
    );
  });
});
