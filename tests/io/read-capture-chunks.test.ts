import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readCaptureChunks } from '../../src/io/read-capture-chunks.js';
import { runProgram } from '../cli/run-program.js';
import { makeFolder, workIn } from './temporary-folder.js';

const gather = async (file: string, folder: string): Promise<Buffer> => {
  const chunks: Uint8Array[] = [];
  for await (const chunk of readCaptureChunks(file, workIn(folder))) chunks.push(chunk);
  return Buffer.concat(chunks);
};

const DEMO = 'fixtures/demo/captures';
const READS = ['2026-11-20-0805-v101.dex', '2026-11-23-0805-v101.dex'];

describe('readCaptureChunks', () => {
  it('unpacks what is gzip, whatever its name, and leaves all else as it is', async () => {
    const long = Buffer.from('MA9*1\r\n'.repeat(300_000));
    const folder = makeFolder({ packed: gzipSync(long), plain: long, empty: '' });
    expect((await gather('packed', folder)).equals(long)).toBe(true);
    expect((await gather('plain', folder)).equals(long)).toBe(true);
    expect((await gather('empty', folder)).length).toBe(0);
  });

  it('gives what can not be unpacked as it is', async () => {
    const broken = gzipSync('ST*001*0001\r\n').subarray(0, 20);
    expect((await gather('cut.gz', makeFolder({ 'cut.gz': broken }))).equals(broken)).toBe(true);
  });

  it('lets captures tell by file what they tell by the book', async () => {
    const bytes = READS.map((name) => readFileSync(`${DEMO}/${name}`));
    const folder = makeFolder({ 'a.dex': bytes[0]!, 'b.dex': bytes[1]! });
    const packed = makeFolder({ 'a.dex': gzipSync(bytes[0]!), 'b.dex': gzipSync(bytes[1]!) });
    const args = ['a.dex', 'b.dex'];
    for (const command of ['interval', 'check', 'explain']) {
      const plain = await runProgram([command, ...args, '--json'], { cwd: folder });
      expect(plain.lines.length).toBeGreaterThan(0);
      expect(await runProgram([command, ...args, '--json'], { cwd: packed })).toEqual(plain);
    }
  });
});
