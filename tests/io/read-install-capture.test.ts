import { describe, expect, it } from 'vitest';
import { readInstallCapture } from '../../src/io/index.js';
import { buildTransmission } from '../support/build-capture.js';
import { makeFolder, workIn } from './temporary-folder.js';

describe('readInstallCapture', () => {
  it('takes the last read of the file, with what is found about the file', async () => {
    const bytes = buildTransmission([{ segments: ['ID1*S1*M1'] }, { segments: ['ID1*S2*M2'] }], { dxe: null });
    const { capture, check } = await readInstallCapture('a.dex', {}, workIn(makeFolder({ 'a.dex': bytes })));
    expect(capture!.read.machine.serial).toBe('S2');
    expect(capture!.fileFindings!.map(({ code, file }) => [code, file])).toEqual([['cut-short', 'a.dex']]);
    expect(check.reads).toHaveLength(2);
  });

  it('has none where the file holds none, or is not there', async () => {
    const folder = makeFolder({ 'a.dex': '' });
    expect(await readInstallCapture('a.dex', {}, workIn(folder))).toMatchObject({
      capture: null,
      check: { findings: [{ code: 'empty-file' }] },
    });
    expect(await readInstallCapture('gone.dex', { isFileTimeReceived: true }, workIn(folder))).toMatchObject({
      capture: null,
      check: { findings: [{ code: 'unreadable-file' }] },
    });
  });
});
