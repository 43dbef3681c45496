import { utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeFile, takeFiles } from '../../src/io/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture, buildTransmission } from '../support/build-capture.js';
import { makeFolder, workIn } from './temporary-folder.js';

const roster = new Roster();
const SETS = buildTransmission([{ segments: ['ID1*S1*M1'] }, { segments: ['ID1*S2*M2'], crc: 'wrong' }]);

describe('takeFile', () => {
  it('takes every read of a file, with why it must not be used, if so', async () => {
    const { reads, findings } = await takeFile('a.dex', { roster }, workIn(makeFolder({ 'a.dex': SETS })));
    expect(reads.map(({ file, read, faults }) => [file, read.number, faults.length])).toEqual([
      ['a.dex', 0, 0],
      ['a.dex', 1, 1],
    ]);
    expect(findings).toEqual([]);
  });

  it("takes the file's own time only where the user says so", async () => {
    const folder = makeFolder({ 'a.dex': buildCapture(['ID1*S1*M1']) });
    const written = new Date(2026, 10, 24, 14, 15, 0);
    utimesSync(join(folder, 'a.dex'), written, written);
    const timeOf = async (isFileTimeReceived: boolean) =>
      (await takeFile('a.dex', { roster, isFileTimeReceived }, workIn(folder))).reads[0]!.receivedAt;
    expect([await timeOf(false), await timeOf(true)]).toEqual([null, '2026-11-24T14:15:00']);
  });
});

describe('takeFiles', () => {
  it('takes folders and files, and says what could not be read', async () => {
    const folder = makeFolder({ 'in/a.dex': SETS, 'in/b.dex': '' });
    const seen: string[] = [];
    const options = { roster, onFile: (file: string) => seen.push(file) };
    const { reads, findings } = await takeFiles(['in', 'gone'], options, workIn(folder));
    expect(reads).toHaveLength(2);
    expect(findings.map(({ code, file }) => [code, file])).toEqual([
      ['empty-file', 'in/b.dex'],
      ['unreadable-file', 'gone'],
    ]);
    expect(seen).toEqual(['in/a.dex', 'in/b.dex', 'gone']);
  });
});
