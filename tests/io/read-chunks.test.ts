import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readChunks } from '../../src/io/index.js';
import { makeFolder, workIn } from './temporary-folder.js';

const gather = async (chunks: AsyncIterable<Uint8Array>): Promise<{ text: string; longest: number; count: number }> => {
  let text = '';
  let longest = 0;
  let count = 0;
  for await (const chunk of chunks) {
    text += Buffer.from(chunk).toString('latin1');
    longest = Math.max(longest, chunk.length);
    count++;
  }
  return { text, longest, count };
};

describe('readChunks', () => {
  it('gives the bytes of a small file at once', async () => {
    const folder = makeFolder({ 'a.dex': 'ST*001*0001\r\n' });
    expect(await gather(readChunks('a.dex', workIn(folder)))).toMatchObject({ text: 'ST*001*0001\r\n', count: 1 });
    expect((await gather(readChunks(join(folder, 'a.dex'), workIn('/')))).text).toBe('ST*001*0001\r\n');
  });

  it('gives a long file in pieces', async () => {
    const content = 'MA9*1\r\n'.repeat(300_000);
    const folder = makeFolder({ 'long.dex': content });
    const { text, longest, count } = await gather(readChunks('long.dex', workIn(folder)));
    expect(text === content).toBe(true);
    expect(longest).toBeLessThanOrEqual(256 * 1024);
    expect(count).toBeGreaterThan(5);
  });

  it('reads standard input for -, bytes or text', async () => {
    expect((await gather(readChunks('-', workIn('/', Buffer.from('SE*'), '2*1')))).text).toBe('SE*2*1');
  });

  it.skipIf(process.platform === 'win32')('reads a pipe that is named outright', async () => {
    const folder = makeFolder();
    const pipe = join(folder, 'pipe');
    await new Promise((resolve) => execFile('mkfifo', [pipe], resolve));
    const writer = execFile('sh', ['-c', `printf 'ST*1' > '${pipe}'`]);
    expect((await gather(readChunks('pipe', workIn(folder)))).text).toBe('ST*1');
    writer.kill();
  });

  it('fails with the error of the system', async () => {
    await expect(gather(readChunks('gone', workIn(makeFolder())))).rejects.toMatchObject({ code: 'ENOENT' });
    await expect(gather(readChunks('.', workIn(makeFolder())))).rejects.toMatchObject({ code: 'EISDIR' });
  });
});
