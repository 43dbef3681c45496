import { describe, expect, it } from 'vitest';
import { takeReads } from '../../src/captures/index.js';
import { checkCapture } from '../../src/checks/index.js';
import { readCaptures, streamReads } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture, joinCaptures } from '../support/build-capture.js';

const at = (date: string, sold: number) =>
  buildCapture([
    'ID1*S1*M1****A1',
    `ID5*${date}*1000`,
    `VA1*${sold}*${sold}*0*0`,
    'PA1*11*1',
    `PA2*${sold}*${sold}*0*0`,
  ]);
const FILE = joinCaptures(at('261122', 1), at('261123', 2), at('261124', 3));
const RECEIVED = '2026-11-24T10:02:00';
const roster = new Roster({
  capturesList: [
    {
      ...{ file: 'days.dex', receivedAt: RECEIVED, reason: null, signal: null, filled: null, machine: null, bag: null },
      place: { file: 'captures.csv', row: 2 },
    },
  ],
});

// Domain rule: a time received said of a file with several reads is that of its last read.
describe('a time received said of a file with several reads', () => {
  it('is that of its last read', () => {
    const reads = takeReads('days.dex', readCaptures(FILE).reads, { roster, check: () => [] });
    expect(reads.map(({ receivedAt }) => receivedAt)).toEqual([null, null, RECEIVED]);
  });

  it('judges no clock but that one', () => {
    expect(checkCapture('days.dex', FILE, { roster }).findings.filter(({ code }) => code === 'clock-wrong')).toEqual(
      [],
    );
    const late = checkCapture('days.dex', FILE, { receivedAt: '2026-11-25T10:02:00' });
    expect(late.findings.filter(({ code }) => code === 'clock-wrong').map(({ read }) => read)).toEqual([2]);
  });

  it('is so in chunks as well; of a file that breaks off the last read is not known', async () => {
    const chunks = async function* (fails: boolean) {
      for (let from = 0; from < FILE.length; from += 100) yield FILE.subarray(from, from + 100);
      if (fails) throw new Error('gone');
    };
    const last: boolean[] = [];
    for await (const read of streamReads(chunks(false))) last.push(read.isLastOfFile);
    expect(last).toEqual([false, false, true]);
    const broken: boolean[] = [];
    const readAll = async () => {
      for await (const read of streamReads(chunks(true))) broken.push(read.isLastOfFile);
    };
    await expect(readAll()).rejects.toThrow('gone');
    expect(broken).toEqual([false, false, false]);
  });
});
