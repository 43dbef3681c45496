import { describe, expect, it } from 'vitest';
import { takeRead, takeReads } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readMachines } from '../../src/sheets/index.js';
import { buildCapture, buildTransmission } from '../support/build-capture.js';

const { rows: machines } = readMachines({ file: 'm.csv', content: 'machine,asset,profile\nM1,A1,strict\n' });
const roster = new Roster({ machines, profiles: [{ name: 'strict', severities: { 'segment-count': 'fault' } }] });

describe('takeRead', () => {
  it('keeps as faults what the checks and the profile call so', () => {
    const [known] = readCaptures(buildCapture(['ID1*S1*M****A1', 'ID4*2*978*EUR'], { seCount: 99 })).reads;
    const taken = takeRead('a.dex', known!, { roster });
    expect(taken).toMatchObject({ file: 'a.dex', machine: { machine: 'M1' }, currency: 'EUR', decimals: 2 });
    expect(taken.faults.map(({ code, file }) => [code, file])).toEqual([['segment-count', 'a.dex']]);
    const [unknown] = readCaptures(buildCapture(['ID1*S1*M****A2'], { seCount: 99 })).reads;
    expect(takeRead('b.dex', unknown!, { roster }).faults).toEqual([]);
  });

  it('calls a damaged capture by its fault', () => {
    const { reads } = readCaptures(
      buildTransmission([{ segments: ['ID1*S1*M****A1'] }, { segments: ['ID1*S9*M'], crc: 'wrong' }]),
    );
    const taken = takeReads('c.dex', reads, { roster });
    expect(taken.map(({ file, read, faults }) => [file, read.number, faults.map(({ code }) => code)])).toEqual([
      ['c.dex', 0, []],
      ['c.dex', 1, ['integrity-damaged']],
    ]);
  });

  it('can be given other checks', () => {
    const [read] = readCaptures(buildCapture(['ID1*S1*M****A1'])).reads;
    const check = () => [makeFinding('padding', 'Filler.'), makeFinding('cut-short', 'Too short.')];
    expect(takeRead('d.dex', read!, { roster, check }).faults.map(({ code }) => code)).toEqual(['cut-short']);
  });
});
