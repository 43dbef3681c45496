import { readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DayFolder } from '../../src/cli/day-folder.js';
import { makeFolder } from '../io/temporary-folder.js';

describe('DayFolder', () => {
  it('puts files in their places only when all are whole', async () => {
    const path = join(makeFolder(), 'new', 'out');
    const folder = new DayFolder(path);
    await folder.add([
      { name: 'a.csv', text: 'head\n' },
      { name: 'b.csv', text: '' },
    ]);
    await folder.add([{ name: 'a.csv', text: 'row\n' }]);
    expect(readdirSync(path).every((name) => name.endsWith('.part'))).toBe(true);
    await folder.finish();
    await folder.discard();
    expect(readdirSync(path).sort()).toEqual(['a.csv', 'b.csv']);
    expect(readFileSync(join(path, 'a.csv'), 'utf8')).toBe('head\nrow\n');
  });

  it('leaves what was there as it is when it is not finished, and takes away what it began', async () => {
    const path = makeFolder({ 'a.csv': 'before' });
    const folder = new DayFolder(path);
    await folder.add([{ name: 'a.csv', text: 'half' }]);
    await folder.discard();
    expect(readdirSync(path)).toEqual(['a.csv']);
    expect(readFileSync(join(path, 'a.csv'), 'utf8')).toBe('before');
  });

  it('takes away what a killed run left, but not what another run is writing', async () => {
    const path = makeFolder();
    for (const name of ['old.csv.1-a.part', 'now.csv.2-b.part', 'kept.csv']) writeFileSync(join(path, name), '');
    const longAgo = new Date(Date.now() - 3 * 60 * 60 * 1000);
    for (const name of ['old.csv.1-a.part', 'kept.csv']) utimesSync(join(path, name), longAgo, longAgo);
    const folder = new DayFolder(path);
    await folder.add([{ name: 'a.csv', text: 'x' }]);
    await folder.finish();
    expect(readdirSync(path).sort()).toEqual(['a.csv', 'kept.csv', 'now.csv.2-b.part']);
  });
});
