import { describe, expect, it } from 'vitest';
import type { Integrity } from '../../src/read/index.js';
import { buildCapture, bytesOf, type CaptureOptions, textOf } from '../support/build-capture.js';
import { GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';
import { crc16Bitwise, swapBytes16, writeHex16 } from '../support/crc16-bitwise.js';

const integrityOf = (bytes: Uint8Array): Integrity => readFirst(bytes).integrity;
const sent = (options: CaptureOptions): Integrity => integrityOf(buildCapture(GOOD_SEGMENTS, options));
const edit = (options: CaptureOptions, change: (text: string) => string): Integrity =>
  integrityOf(bytesOf(change(textOf(buildCapture(GOOD_SEGMENTS, options)))));
/** Put the exchanged value in. */
const swapValue = (text: string): string => text.replace(/G85\*(..)(..)/, 'G85*$2$1');

describe('integrity', () => {
  it.each([
    ['exact', 'exact', []],
    ['lower', 'exact', []],
    ['swapped', 'byte-swapped', ['byte-swapped']],
    ['from-dxs', 'range-variant', ['from-dxs']],
    ['without-last-eol', 'range-variant', ['without-last-ending']],
    ['wrong', 'damaged', []],
    ['none', 'absent', []],
    ['', 'absent', []],
    ['ABC', 'absent', []],
    ['ABCDE', 'damaged', []],
    ['+123', 'damaged', []],
  ])('with value %s is %s', (crc, state, variants) => {
    expect(sent({ crc })).toMatchObject({ state, variants });
  });

  it('gives what is stated and what was computed, in the reading that fits', () => {
    const exact = sent({ crc: 'lower' });
    expect(exact.computed).toBe(exact.stated!.toUpperCase());
    const swapped = sent({ crc: 'swapped' });
    expect(swapped.computed).toBe(swapped.stated);
    const wrong = sent({ crc: '0000' });
    expect(wrong).toMatchObject({ stated: '0000', computed: exact.computed });
    expect(sent({ crc: 'none' })).toMatchObject({ stated: null, computed: null });
  });

  it('is damaged where the ST it begins at is missing', () => {
    const integrity = edit({}, (text) => text.replace('ST*001*0001\r\n', ''));
    expect(integrity).toMatchObject({ state: 'damaged', computed: null });
  });

  describe('after a transfer that changed line endings', () => {
    it.each([
      ['LF', { eol: '\n' as const }],
      ['CR', { eol: '\r' as const }],
    ])('to %s', (_, options) => {
      expect(sent(options)).toMatchObject({ state: 'line-endings', variants: ['line-endings'] });
    });

    it('is exact when the machine itself wrote LF and so computed', () => {
      expect(sent({ eol: '\n', crcOver: 'as-sent' })).toMatchObject({ state: 'exact' });
    });

    it.each([
      ['CR CR LF', (text: string) => text.replaceAll('\r\n', '\r\r\n')],
      ['a blank line after each', (text: string) => text.replaceAll('\r\n', '\r\n\r\n')],
      ['two LF', (text: string) => text.replaceAll('\r\n', '\n\n')],
    ])('to %s', (_, change) => {
      expect(edit({}, change)).toMatchObject({ state: 'line-endings' });
    });

    it('keeps blank lines that were the machine its own', () => {
      const segments = [...GOOD_SEGMENTS.slice(0, 3), '', ...GOOD_SEGMENTS.slice(3)];
      expect(integrityOf(buildCapture(segments, { eol: '\n' }))).toMatchObject({ state: 'line-endings' });
    });

    it('with the value exchanged, or something appended to ST, or both', () => {
      expect(sent({ eol: '\n', crc: 'swapped' }).variants).toEqual(['line-endings', 'byte-swapped']);
      expect(sent({ eol: '\n', stAppend: 'X' }).variants).toEqual(['line-endings', 'st-appended']);
      expect(edit({ eol: '\n', stAppend: 'X' }, swapValue).variants).toEqual([
        'line-endings',
        'st-appended',
        'byte-swapped',
      ]);
    });

    it('is not claimed while one line ends as it should', () => {
      expect(
        edit({}, (text) => text.replaceAll('\r\n', '\n').replace('VA2*100*1*0*0\n', 'VA2*100*1*0*0\r\n')),
      ).toMatchObject({
        state: 'damaged',
      });
    });
  });

  it('goes by the last G85 where there are several, over all that is before it', () => {
    const twice = (text: string): string => text.replace('VA1*', 'G85*0000\r\nVA1*');
    expect(edit({}, twice)).toMatchObject({ state: 'damaged', stated: sent({}).stated });
    const own = buildCapture([...GOOD_SEGMENTS.slice(0, 5), 'G85*0', ...GOOD_SEGMENTS.slice(5)]);
    expect(integrityOf(own)).toMatchObject({ state: 'exact' });
  });

  it('is damaged where G85 hangs on the line before', () => {
    for (const joint of ['', '\r\u000b', '*', '\r*', '\u001a\u001a']) {
      expect(edit({}, (text) => text.replace(/\r\n(G85)/, `${joint}$1`))).toMatchObject({
        state: 'damaged',
        stated: sent({}).stated,
      });
    }
    const headless = edit({}, (text) => text.replace(/\r\n(G85)/, '$1').replace('ST*001*0001\r\n', ''));
    expect(headless).toMatchObject({ state: 'damaged', computed: null });
    expect(integrityOf(bytesOf('ST*1*1\r\n\r\n'))).toMatchObject({ state: 'absent' });
    expect(integrityOf(bytesOf('ST*1*1\r\nID1*S\r\n\r\nSE*3*1\r\n'))).toMatchObject({ state: 'absent' });
  });

  it('can not be computed for a second G85 behind an overlong line', () => {
    const segments = [...GOOD_SEGMENTS, 'G85*0000', `ZZ1*${'x'.repeat(70_000)}`];
    expect(integrityOf(buildCapture(segments))).toMatchObject({ state: 'damaged', computed: null });
  });

  it('fits without what a reader appended to ST', () => {
    expect(sent({ stAppend: '261124101500' })).toMatchObject({ state: 'range-variant', variants: ['st-appended'] });
    expect(sent({ stAppend: '261124101500', appendCovered: true })).toMatchObject({ state: 'exact' });
    expect(edit({ stAppend: 'X' }, swapValue).variants).toEqual(['st-appended', 'byte-swapped']);
  });

  it('fits exchanged over a range of its own', () => {
    expect(edit({ crc: 'from-dxs' }, swapValue).variants).toEqual(['from-dxs', 'byte-swapped']);
    expect(edit({ crc: 'without-last-eol' }, swapValue).variants).toEqual(['without-last-ending', 'byte-swapped']);
  });

  it('takes DXS into the range only where it stands right before ST', () => {
    expect(edit({ crc: 'from-dxs' }, (text) => text.replace('ST*', '\r\nST*'))).toMatchObject({ state: 'damaged' });
    expect(sent({ crc: 'from-dxs', envelope: false })).toMatchObject({ state: 'exact' });
  });
});

describe('integrity against a CRC of its own', () => {
  it('covers every byte from the S of ST to the line ending before G85', () => {
    const text = textOf(buildCapture(GOOD_SEGMENTS, { crc: 'none' }));
    const covered = text.slice(text.indexOf('ST*'), text.indexOf('SE*'));
    const crc = crc16Bitwise(bytesOf(covered));
    const withValue = (value: string): Uint8Array => bytesOf(text.replace('SE*25', `G85*${value}\r\nSE*26`));
    expect(integrityOf(withValue(writeHex16(crc)))).toMatchObject({ state: 'exact', computed: writeHex16(crc) });
    expect(integrityOf(withValue(writeHex16(swapBytes16(crc))))).toMatchObject({ state: 'byte-swapped' });
  });
});
