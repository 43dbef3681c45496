import { describe, expect, it } from 'vitest';
import { LARGEST_SHEET, readWholeFile } from '../../src/io/read-whole-file.js';
import { makeFolder, workIn } from './temporary-folder.js';

describe('readWholeFile', () => {
  it('gives the content of a file or of standard input', async () => {
    const folder = makeFolder({ 'a.csv': 'machine\n' });
    const { content } = await readWholeFile('a.csv', workIn(folder));
    expect(Buffer.from(content!).toString()).toBe('machine\n');
    expect(Buffer.from((await readWholeFile('-', workIn('/', 'mach', 'ine\n'))).content!).toString()).toBe('machine\n');
  });

  it('says what is not there', async () => {
    const { content, problem } = await readWholeFile('gone.csv', workIn(makeFolder()));
    expect(content).toBeNull();
    expect(problem!.message).toBe('gone.csv could not be read: there is no such file or folder.');
  });

  it('does not read what is too long to be a sheet', async () => {
    const folder = makeFolder({ 'big.csv': 'x'.repeat(100) });
    const { problem } = await readWholeFile('big.csv', workIn(folder), 99);
    expect(problem!.message).toMatch(/longer than 99 bytes/);
    expect((await readWholeFile('big.csv', workIn(folder), 100)).problem).toBeNull();
    expect(LARGEST_SHEET).toBeGreaterThan(1_000_000);
  });
});
