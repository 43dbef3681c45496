import { utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFile, checkFileInParts, checkFiles } from '../../src/io/index.js';
import { buildCapture, buildTransmission } from '../support/build-capture.js';
import { makeFolder, workIn } from './temporary-folder.js';

const GOOD = buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'ID5*261124*1015', 'CB1*B1', 'VA1*100*1']);

describe('checkFile', () => {
  it('checks a file, and standard input', async () => {
    const folder = makeFolder({ 'a.dex': GOOD });
    const check = await checkFile('a.dex', {}, workIn(folder));
    expect(check).toMatchObject({ file: 'a.dex', verdict: 'sound', reads: [{ currency: 'EUR' }] });
    expect(await checkFile('-', {}, workIn('/', GOOD))).toEqual({ ...check, file: '-' });
  });

  it('gives the same for a file in pieces', async () => {
    const sets = Array.from({ length: 3000 }, (_, i) => ({ segments: ['ID1*S1*M1', 'CB1*B1', `VA1*${i}*1`, 'MA9*x'] }));
    const bytes = buildTransmission(sets);
    const folder = makeFolder({ 'long.dex': bytes });
    const inOne = await checkFile('-', {}, workIn('/', bytes));
    expect(inOne.reads).toHaveLength(3000);
    const { findings, reads, verdict } = await checkFile('long.dex', {}, workIn(folder));
    expect([reads.length, verdict, findings.length]).toEqual([3000, inOne.verdict, inOne.findings.length]);
  });

  it("takes the file's own time as when it was received only where the user says so", async () => {
    const folder = makeFolder({ 'a.dex': GOOD });
    const written = new Date(2026, 10, 24, 14, 15, 0);
    utimesSync(join(folder, 'a.dex'), written, written);
    const timeOf = async (isFileTimeReceived: boolean) =>
      (await checkFile('a.dex', { isFileTimeReceived }, workIn(folder))).reads[0]!.receivedAt;
    expect(await timeOf(false)).toBeNull();
    expect(await timeOf(true)).toBe('2026-11-24T14:15:00');
    const codes = (await checkFile('a.dex', { isFileTimeReceived: true }, workIn(folder))).findings.map(
      ({ code }) => code,
    );
    expect(codes).toContain('clock-wrong');
  });

  it('says what can not be read', async () => {
    expect(await checkFile('gone.dex', {}, workIn(makeFolder()))).toMatchObject({
      verdict: 'read-again',
      reads: [],
      findings: [{ code: 'unreadable-file' }],
    });
  });
});

describe('checkFileInParts', () => {
  it('tells the reads of a long file part by part, and what is said of the file in the last', async () => {
    const sets = Array.from({ length: 7 }, (_, i) => ({ segments: [`ID1*S${i}*M1`, 'CB1*B1', 'VA1*1*1'] }));
    const bytes = buildTransmission(sets, { dxe: null });
    const parts = [];
    for await (const part of checkFileInParts('-', {}, workIn('/', bytes), 3)) parts.push(part);
    expect(parts.map(({ firstRead, reads }) => [firstRead, ...reads.map(({ machine }) => machine.serial)])).toEqual([
      [0, 'S0', 'S1', 'S2'],
      [3, 'S3', 'S4', 'S5'],
      [6, 'S6'],
    ]);
    expect(parts.map(({ findings }) => findings.filter(({ code }) => code === 'cut-short').length)).toEqual([0, 0, 1]);
    const whole = await checkFile('-', {}, workIn('/', bytes));
    expect(parts.flatMap(({ reads }) => reads)).toEqual(whole.reads);
  });
});

describe('checkFiles', () => {
  it('gives one result a file, also for one that can not be read', async () => {
    const folder = makeFolder({ 'in/a.dex': GOOD, 'in/b.dex': 'no capture' });
    const seen: string[] = [];
    const results: string[] = [];
    const options = { onFile: (file: string) => seen.push(file) };
    for await (const { file, verdict } of checkFiles(['in', 'gone'], options, workIn(folder))) {
      results.push(`${file} ${verdict}`);
    }
    expect(results).toEqual(['in/a.dex sound', 'in/b.dex read-again', 'gone read-again']);
    expect(seen).toEqual(['in/a.dex', 'in/b.dex', 'gone']);
  });
});
