import { crc16 as packageCrc16 } from 'crc';
import { describe, expect, it } from 'vitest';
import { parseSegments } from '../../src/segments/index.js';
import { buildCapture } from '../support/build-capture.js';
import { bytesOf, joinCaptures } from '../support/latin1-bytes.js';
import { factsOf, type LineFacts } from './reference-lines.js';

const factsOfText = (text: string, longestSegment?: number): LineFacts[] =>
  factsOf(parseSegments(bytesOf(text), longestSegment === undefined ? {} : { longestSegment }));
const valuesIn = (text: string, longest?: number): (number | null)[] =>
  factsOfText(text, longest)
    .filter((fact) => fact.id.startsWith('G85'))
    .map((fact) => fact.integrity);
// The outside judge: the npm package crc.
const crcOf = (text: string): number => packageCrc16(Buffer.from(bytesOf(text)));

describe('the CRC at a G85', () => {
  it('covers every byte from the S of ST to the line ending before G85 (from memory of the standard)', () => {
    const covered = 'ST*001*0001\r\nID1*S1\r\n';
    expect(valuesIn(`DXS*X\r\n${covered}G85*0000\r\nSE*4*0001\r\n`)).toEqual([crcOf(covered)]);
  });

  it('is taken over the bytes as they came, whatever the line endings, spaces and blank lines', () => {
    for (const covered of ['ST\nID1\n', 'ST\rID1\r', 'ST  \r\n\r\n\0\r\nID1*\xe9\r\n', 'ST\r\r\nZZ9*?\r\r\n']) {
      expect(valuesIn(`${covered}G85*0000`)).toEqual([crcOf(covered)]);
    }
  });

  it('starts anew at every ST, one that was not closed too', () => {
    expect(valuesIn('ST*1\r\nPA1*1\r\nG85\r\nSE\r\nST*2\r\nG85\r\n')).toEqual([
      crcOf('ST*1\r\nPA1*1\r\n'),
      crcOf('ST*2\r\n'),
    ]);
    expect(valuesIn('ST*1\r\nPA1*1\r\nST*2\r\nG85\r\n')).toEqual([crcOf('ST*2\r\n')]);
  });

  it('is absent where no ST came before, or a G85 closed it already', () => {
    expect(valuesIn('PA1*1\r\nG85*0000\r\n')).toEqual([null]);
    expect(valuesIn('ST\r\nG85\r\nPA1\r\nG85\r\n')).toEqual([crcOf('ST\r\n'), null]);
  });

  it('does not heed lines that only look like ST or G85', () => {
    const covered = 'ST*1\r\nSTX*1\r\n ST*1\r\nG8*5\r\nst\r\n';
    expect(valuesIn(`${covered}G85\r\n`)).toEqual([crcOf(covered)]);
  });

  it('fits the value written by the builder of captures, in every one of a day joined together', () => {
    const day = Array.from({ length: 50 }, (_, i) => buildCapture([`ID1*S${i}`, `PA1*${i}*100`, 'PA2*1*100']));
    const facts = factsOf(parseSegments(joinCaptures(...day))).filter((fact) => fact.id === 'G85');
    expect(facts).toHaveLength(50);
    for (const fact of facts) expect(fact.integrity).toBe(Number.parseInt(fact.elements[0] ?? '', 16));
  });
});

describe('the CRC when lines are overlong', () => {
  it('covers what was skipped inside the set', () => {
    const covered = `ST*001\r\nPA1*7*${'x'.repeat(100)}\r\n`;
    expect(valuesIn(`${covered}G85*12\r\n`, 10)).toEqual([crcOf(covered)]);
  });

  it('starts at an overlong ST', () => {
    const covered = `ST*001*${'0'.repeat(100)}\r\nID1\r\n`;
    expect(valuesIn(`${covered}G85*12\r\n`, 10)).toEqual([crcOf(covered)]);
  });

  it('is read off at an overlong G85', () => {
    expect(valuesIn(`ST*001\r\nID1\r\nG85*${'0'.repeat(100)}\r\n`, 10)).toEqual([crcOf('ST*001\r\nID1\r\n')]);
  });

  it('heeds overlong ST and G85 that are followed by filler only', () => {
    const covered = `ST${' '.repeat(100)}\r\nID1\r\n`;
    expect(valuesIn(`${covered}G85${' '.repeat(100)}\r\n`, 10)).toEqual([crcOf(covered)]);
  });

  it('goes by what was kept of the identifier', () => {
    expect(factsOfText('ST*1\r\nG85*1\r\n', 2)).toMatchObject([{ id: 'ST' }, { id: 'G8', integrity: null }]);
    expect(factsOfText('STX*1\r\nG85*1\r\n', 3)).toMatchObject([{ id: 'STX' }, { id: 'G85', integrity: null }]);
  });
});
