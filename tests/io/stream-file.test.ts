import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/findings/index.js';
import { streamFile } from '../../src/io/stream-file.js';
import { buildTransmission } from '../support/build-capture.js';
import { makeFolder, workIn } from './temporary-folder.js';

async function drain(reads: ReturnType<typeof streamFile>): Promise<[number, readonly Finding[]]> {
  let count = 0;
  let next = await reads.next();
  for (; !next.done; next = await reads.next()) count++;
  return [count, next.value];
}

const SETS = buildTransmission([{ segments: ['ID1*S1*M1'] }, { segments: ['ID1*S2*M2'] }], { dxe: null });

describe('streamFile', () => {
  it('gives reads, then what is found about the file', async () => {
    const [count, findings] = await drain(streamFile('a.dex', workIn(makeFolder({ 'a.dex': SETS }))));
    expect([count, findings.map(({ code, file }) => [code, file])]).toEqual([2, [['cut-short', 'a.dex']]]);
  });

  it('keeps what came before an input breaks off', async () => {
    const stdin = (async function* () {
      yield SETS;
      throw Object.assign(new Error('gone'), { code: 'EIO' });
    })();
    const [count, findings] = await drain(streamFile('-', { cwd: '/', stdin }));
    expect([count, findings.map(({ message }) => message)]).toEqual([
      2,
      ['- could not be read: the disk or network gave an error.'],
    ]);
  });

  it('does not take a defect for a file that can not be read', async () => {
    const stdin = (async function* () {
      yield 'ST*001';
      throw new TypeError('x is not a function');
    })();
    await expect(drain(streamFile('-', { cwd: '/', stdin }))).rejects.toThrow('x is not a function');
  });
});
