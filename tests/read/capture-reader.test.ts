import { describe, expect, it } from 'vitest';
import { CaptureReader, type Read, readCaptures } from '../../src/read/index.js';
import { buildCapture, buildTransmission, bytesOf, joinCaptures, textOf } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS } from '../support/check-cases.js';
import { describeFile, describeRead } from '../support/describe-file.js';

const A = buildCapture(GOOD_SEGMENTS);
const B = buildCapture(changeSegments({ put: ['ID1*SN2*M'] }), { dxsLine: 'DXS*TST0000002*VA*V1/1*7' });
const bareA = buildCapture(GOOD_SEGMENTS, { envelope: false });
const bareB = buildCapture(changeSegments({ put: ['ID1*SN2*M'] }), { envelope: false });

describe('a file of captures', () => {
  it.each([
    ['one', [A], ['SN1 exact 1'], []],
    ['two', [A, B], ['SN1 exact 1', 'SN2 exact 7'], []],
    ['the same twice', [A, A], ['SN1 exact 1', 'SN1 exact 1'], []],
    // A reader that keeps only ST to SE: whole, a note.
    ['a bare set', [bareA], ['SN1 exact -'], ['envelope-missing']],
    ['two bare sets', [bareA, bareB], ['SN1 exact -', 'SN2 exact -'], ['envelope-missing']],
    ['a bare set among others', [A, bareB, A], ['SN1 exact 1', 'SN2 exact -', 'SN1 exact 1'], ['envelope-missing']],
    ['padding', [A, bytesOf('\u0000\u0000\u001a')], ['SN1 exact 1'], ['padding']],
    ['padding between', [A, bytesOf('\u0000\r\n'), B], ['SN1 exact 1', 'SN2 exact 7'], ['padding']],
    ['blank lines', [bytesOf('\r\n\r\n'), A, bytesOf('\n'), B], ['SN1 exact 1', 'SN2 exact 7'], []],
    ["a line of the reader's own before", [bytesOf('READER 7 ROUTE 3\r\n'), A], ['SN1 exact 1'], ['junk-before']],
    ['a stray SE before', [bytesOf('SE*1*1\r\n'), A], ['SN1 exact 1'], ['junk-before']],
    ['lines between', [A, bytesOf('# next\r\n# one\r\n'), B], ['SN1 exact 1', 'SN2 exact 7'], ['junk-between']],
    ['lines after', [A, bytesOf('bye\r\n')], ['SN1 exact 1'], ['junk-between']],
    ['DXS twice', [bytesOf('DXS*X*VA*V1/1*9\r\n'), A], ['SN1 exact 1'], ['cut-short']],
    ['no DXE', [buildCapture(GOOD_SEGMENTS, { dxe: null })], ['SN1 exact 1'], ['cut-short']],
    [
      'no DXE and another',
      [buildCapture(GOOD_SEGMENTS, { dxe: null }), B],
      ['SN1 exact 1', 'SN2 exact 7'],
      ['cut-short'],
    ],
    ['DXE without DXS', [bareA, bytesOf('DXE*1*1\r\n')], ['SN1 exact -'], ['envelope-missing']],
    ['the last line ending missing', [A.slice(0, -2)], ['SN1 exact 1'], ['last-line-open']],
    [
      'the last line ending of a bare set missing',
      [bareA.slice(0, -2)],
      ['SN1 exact -'],
      ['envelope-missing', 'last-line-open'],
    ],
    ['junk without ending at the end', [A, bytesOf('bye')], ['SN1 exact 1'], ['junk-between']],
  ])('%s', (_, parts, reads, codes) => {
    expect(describeFile(...parts)).toEqual({ reads, codes });
  });

  it('of several sets in one transmission', () => {
    const sets = [{ segments: GOOD_SEGMENTS }, { segments: changeSegments({ put: ['ID1*SN2*M'] }) }];
    expect(describeFile(buildTransmission(sets))).toEqual({ reads: ['SN1 exact 1', 'SN2 exact 1'], codes: [] });
    const short = describeFile(buildTransmission(sets, { setCount: 3 }));
    expect(short).toEqual({ reads: ['SN1 exact 1', 'SN2 exact 1'], codes: ['set-count'] });
  });

  it('of sets without ST, and after a cut without SE', () => {
    const headless = bytesOf(textOf(bareA).replace('ST*001*0001\r\n', ''));
    expect(describeFile(headless, bareB).reads).toEqual(['SN1 damaged -', 'SN2 exact -']);
    const cut = bytesOf('ST*001*1\r\nID1*SN1\r\n');
    expect(describeFile(cut, bareB).reads).toEqual(['SN1 absent cut -', 'SN2 exact -']);
    expect(describeFile(cut, B).reads).toEqual(['SN1 absent cut -', 'SN2 exact 7']);
    expect(describeFile(bytesOf('DXS*A*VA*V1/1*1\r\n'), cut, bytesOf('DXE*1*1\r\n')).reads).toEqual([
      'SN1 absent cut 1',
    ]);
  });
});

describe('limits', () => {
  it.each([0, -1, 1.5, Number.NaN])('refuse %s', (limit) => {
    expect(() => new CaptureReader({ longestSet: limit })).toThrow(RangeError);
    expect(() => new CaptureReader({ longestSegment: limit })).toThrow(RangeError);
    expect(() => new CaptureReader({ mostColumns: limit })).toThrow(RangeError);
    expect(() => new CaptureReader({ mostLines: limit })).toThrow(RangeError);
  });

  it('drop a set beyond the longest, and read the next', () => {
    const long = buildCapture(changeSegments({ add: Array.from({ length: 50 }, () => `ZZ1*${'x'.repeat(40)}`) }));
    for (const size of [long.length + B.length, 100]) {
      const reads: Read[] = [];
      const keep = (read: Read): void => {
        reads.push(read);
      };
      const reader = new CaptureReader({ longestSet: 1500 });
      const file = joinCaptures(long, B);
      for (let at = 0; at < file.length; at += size) reader.push(file.subarray(at, at + size), keep);
      const { findings, readCount } = reader.end(keep);
      expect(reads.map(describeRead)).toEqual(['SN2 exact 7']);
      expect(readCount).toBe(1);
      expect(findings).toMatchObject([
        {
          code: 'overlong-set',
          severity: 'fault',
          segment: 'ST',
          line: 2,
          message: 'A set is longer than 1500 bytes; it was not read.',
        },
      ]);
    }
  });

  it.each([
    ['columns', { mostColumns: 40 }, (i: number) => `PA1*${i}*150`, 'A set has more than 40 columns; it was not read.'],
    ['lines', { mostLines: 60 }, () => 'EA1*EGA*261123*0815', 'A set has more than 60 lines; it was not read.'],
  ])('drop a set of too many %s, and read the next', (_, limits, line, message) => {
    const makeLong = (count: number) =>
      buildCapture(changeSegments({ add: Array.from({ length: count }, (_, i) => line(i)) }));
    for (const size of [100_000, 100]) {
      const reads: Read[] = [];
      const keep = (read: Read): void => {
        reads.push(read);
      };
      const reader = new CaptureReader(limits);
      const file = joinCaptures(makeLong(100), makeLong(30), B);
      for (let at = 0; at < file.length; at += size) reader.push(file.subarray(at, at + size), keep);
      const { findings } = reader.end(keep);
      expect(reads).toHaveLength(2);
      expect(findings).toMatchObject([{ code: 'overlong-set', severity: 'fault', message }]);
    }
  });

  it('drop one outside a transmission as well', () => {
    const long = buildCapture(changeSegments({ add: ['ZZ1*'.padEnd(2000, 'x')] }), { envelope: false });
    const reader = new CaptureReader({ longestSet: 1500 });
    reader.push(long, () => expect.unreachable());
    expect(reader.end(() => expect.unreachable()).findings).toMatchObject([{ code: 'overlong-set' }]);
  });

  it('pass over what is beyond the longest segment', () => {
    const bytes = buildCapture(changeSegments({ add: [`ZZ1*${'x'.repeat(500)}`] }));
    const { reads, byteCount } = readCaptures(bytes, { longestSegment: 100 });
    expect(reads.map(describeRead)).toEqual(['SN1 exact 1']);
    expect(reads[0]!.place('SE01').offset).toBe(textOf(bytes).indexOf('SE*') + 3);
    expect(byteCount).toBe(bytes.length);
  });
});
