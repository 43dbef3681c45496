import { describe, expect, it } from 'vitest';
import { type TakeOptions, takeRead, takeReads } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readMachines } from '../../src/sheets/index.js';
import { buildCapture, buildTransmission } from '../support/build-capture.js';

const { rows: machines } = readMachines({ file: 'm.csv', content: 'machine,asset,profile\nM1,A1,strict\n' });
const roster = new Roster({ machines, profiles: [{ name: 'strict', severities: { 'segment-count': 'fault' } }] });
const check: TakeOptions['check'] = (_, { file }) => [
  makeFinding('segment-count', 'SE says otherwise.', { file }),
  makeFinding('cut-short', 'The capture ends too early.'),
  makeFinding('padding', 'Filler.'),
];

describe('takeRead', () => {
  it('keeps as faults what the checks and the profile call so', () => {
    const [known] = readCaptures(buildCapture(['ID1*S1*M****A1', 'ID4*2*978*EUR'])).reads;
    const taken = takeRead('a.dex', known!, { roster, check });
    expect(taken).toMatchObject({ file: 'a.dex', machine: { machine: 'M1' }, currency: 'EUR', decimals: 2 });
    expect(taken.faults.map(({ code }) => code)).toEqual(['segment-count', 'cut-short']);
    expect(taken.faults[0]!.file).toBe('a.dex');
    const [unknown] = readCaptures(buildCapture(['ID1*S1*M****A2'])).reads;
    expect(takeRead('b.dex', unknown!, { roster, check }).faults.map(({ code }) => code)).toEqual(['cut-short']);
  });

  it('has no faults where the checks find none', () => {
    const { reads } = readCaptures(buildTransmission([{ segments: ['ID1*S1*M****A1'] }, { segments: ['ID1*S9*M'] }]));
    const taken = takeReads('c.dex', reads, { roster, check: () => [] });
    expect(taken.map(({ file, read, faults }) => [file, read.number, faults])).toEqual([
      ['c.dex', 0, []],
      ['c.dex', 1, []],
    ]);
  });
});
