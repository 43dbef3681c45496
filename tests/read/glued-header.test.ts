import { describe, expect, it } from 'vitest';
import { readCaptures } from '../../src/read/index.js';
import { buildCapture, bytesOf, joinCaptures, textOf } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS } from '../support/check-cases.js';
import { describeFile } from '../support/describe-file.js';

const A = buildCapture(GOOD_SEGMENTS);
const B = buildCapture(changeSegments({ put: ['ID1*SN2*M'] }), { dxsLine: 'DXS*TST0000002*VA*V1/1*7' });
const bareA = buildCapture(GOOD_SEGMENTS, { envelope: false });
const bareB = buildCapture(changeSegments({ put: ['ID1*SN2*M'] }), { envelope: false });
const BOM = Uint8Array.of(0xef, 0xbb, 0xbf);

describe('captures that hang on another', () => {
  const lineAndOffset = (bytes: Uint8Array): number[][] =>
    readCaptures(bytes).reads.map((read) => [read.place('ID101').line!, read.place('ID101').offset!]);

  it.each([
    [
      'the last line ending missing between two',
      [A.slice(0, -2), B],
      ['SN1 exact 1', 'SN2 exact 7'],
      ['last-line-open'],
    ],
    [
      'the last line ending missing between bare sets',
      [bareA.slice(0, -2), bareB],
      ['SN1 exact -', 'SN2 exact -'],
      ['last-line-open', 'envelope-missing'],
    ],
    [
      'a bare set before a whole capture',
      [bareA.slice(0, -2), B],
      ['SN1 exact -', 'SN2 exact 7'],
      ['last-line-open', 'envelope-missing'],
    ],
    ['a cut inside a line before the next', [A.slice(0, 330), B], ['SN1 absent cut 1', 'SN2 exact 7'], []],
    [
      'a cut inside an unknown line before the next',
      [bytesOf('ST*001*1\r\nID1*SN1\r\nZZ1*5'), B],
      ['SN1 absent cut -', 'SN2 exact 7'],
      [],
    ],
    [
      'a cut inside a line before a bare set',
      [A.slice(0, 330), bareB],
      ['SN1 absent cut 1', 'SN2 exact 1'],
      ['cut-short'],
    ],
    ['a byte order mark', [BOM, A], ['SN1 exact 1'], ['junk-before']],
    ['a byte order mark before a bare set', [BOM, bareA], ['SN1 exact -'], ['junk-before', 'envelope-missing']],
    ['byte order marks before each', [BOM, A, BOM, B], ['SN1 exact 1', 'SN2 exact 7'], ['junk-before', 'junk-between']],
    ['filler between', [A, bytesOf('\u001a'), B], ['SN1 exact 1', 'SN2 exact 7'], ['padding']],
    [
      'filler between bare sets',
      [bareA, bytesOf('\u0000\u0000'), bareB],
      ['SN1 exact -', 'SN2 exact -'],
      ['envelope-missing', 'padding'],
    ],
    ["a reader's own words on the line", [bytesOf('READER 7: '), A], ['SN1 exact 1'], ['junk-before']],
  ])('%s', (_, parts, reads, codes) => {
    expect(describeFile(...parts)).toEqual({ reads, codes });
  });

  it('keep their places in the file', () => {
    const whole = textOf(joinCaptures(bareA.slice(0, -2), bareB));
    const second = whole.lastIndexOf('ID1*') + 4;
    expect(lineAndOffset(bytesOf(whole))).toEqual([
      [2, 17],
      [whole.slice(0, second).split('\r\n').length, second],
    ]);
    expect(lineAndOffset(joinCaptures(BOM, A))).toEqual([[3, 46]]);
    const [read] = readCaptures(joinCaptures(BOM, bareA)).reads;
    expect(read!.place('ST01')).toMatchObject({ line: 1, offset: 6 });
  });

  it('are not seen where an element only looks like a header', () => {
    const segments = changeSegments({ add: ['EA2*TEST*001*0001', 'EA2*LAST*001*1', 'ID104*DXS'] });
    expect(describeFile(buildCapture(segments)).reads).toEqual(['SN1 exact 1']);
  });

  it('are named for what they are', () => {
    const { findings } = readCaptures(joinCaptures(BOM, A));
    expect(findings[0]!.message).toBe('A byte order mark (UTF-8) stands before the capture.');
  });
});
