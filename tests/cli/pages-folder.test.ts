import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PagesFolder } from '../../src/cli/pages-folder.js';
import { makeFolder } from '../io/temporary-folder.js';

const page = (name: string, text = name) => ({ name, text });

async function write(folder: string, ...names: string[]): Promise<void> {
  const pages = new PagesFolder(folder);
  await pages.put(names.map((name) => page(name)));
  await pages.finish();
}

describe('PagesFolder', () => {
  it('puts pages in their places when all are there, and not before', async () => {
    const folder = join(makeFolder({}), 'new', 'out');
    const pages = new PagesFolder(folder);
    await pages.put([page('index.html'), page('machines/a.html', 'A')]);
    expect(existsSync(join(folder, 'index.html'))).toBe(false);
    await pages.put([page('machines/b.html')]);
    await pages.finish();
    expect(readdirSync(folder).sort()).toEqual(['index.html', 'machines', 'pages.json']);
    expect(readFileSync(join(folder, 'machines/a.html'), 'utf8')).toBe('A');
  });

  it('takes pages of an earlier run away, and leaves what is not its own', async () => {
    const folder = makeFolder({ 'sales.csv': 'mine', 'machines/note.txt': 'mine' });
    await write(folder, 'index.html', 'machines/a.html', 'trends/a.html');
    await write(folder, 'index.html', 'machines/b.html');
    expect(readdirSync(folder).sort()).toEqual(['index.html', 'machines', 'pages.json', 'sales.csv']);
    expect(readdirSync(join(folder, 'machines')).sort()).toEqual(['b.html', 'note.txt']);
  });

  it('takes nothing away by a list that somebody else wrote', async () => {
    const folder = makeFolder({ 'up/x.html': 'x', 'out/keep.txt': 'k', 'out/pages.json': '' });
    const out = join(folder, 'out');
    const named = ['../up/x.html', 'keep.txt', join(folder, 'up/x.html'), 'a/../../up/x.html'];
    writeFileSync(join(out, 'pages.json'), JSON.stringify({ pages: named }));
    await write(out, 'index.html');
    expect(existsSync(join(folder, 'up/x.html'))).toBe(true);
    expect(existsSync(join(out, 'keep.txt'))).toBe(true);
    writeFileSync(join(out, 'pages.json'), 'no list');
    await write(out, 'index.html');
    expect(existsSync(join(out, 'index.html'))).toBe(true);
  });

  it('leaves nothing of a run that failed, and sweeps what a killed one left', async () => {
    const folder = makeFolder({});
    const left = join(folder, '.pages-1-0a0b0c0d.part');
    const atWork = join(folder, '.pages-2-0a0b0c0d.part');
    mkdirSync(left);
    mkdirSync(atWork);
    utimesSync(left, new Date(0), new Date(0));
    const pages = new PagesFolder(folder);
    await pages.put([page('index.html')]);
    await pages.discard();
    expect(readdirSync(folder)).toEqual(['.pages-2-0a0b0c0d.part']);
  });
});
