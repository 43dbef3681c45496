import { utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeLocalTime } from '../../src/io/file-time.js';
import { fileTime } from '../../src/io/index.js';
import { makeFolder, workIn } from './temporary-folder.js';

describe('fileTime', () => {
  it("is when the file was written, by this computer's clock", async () => {
    const folder = makeFolder({ 'a.dex': '' });
    const written = new Date(2026, 10, 24, 10, 15, 5);
    utimesSync(join(folder, 'a.dex'), written, written);
    expect(await fileTime('a.dex', workIn(folder))).toBe('2026-11-24T10:15:05');
  });

  it('is not known for standard input and what is not there', async () => {
    expect(await fileTime('-', workIn('/'))).toBeNull();
    expect(await fileTime('gone', workIn(makeFolder()))).toBeNull();
  });
});

describe('writeLocalTime', () => {
  it('writes every part with two digits', () => {
    expect(writeLocalTime(new Date(2026, 0, 2, 3, 4, 5))).toBe('2026-01-02T03:04:05');
  });
});
