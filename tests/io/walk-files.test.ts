import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readChunks, walkFiles } from '../../src/io/index.js';
import { DEEPEST_FOLDER } from '../../src/io/walk-files.js';
import { makeFolder, workIn } from './temporary-folder.js';

async function walk(folder: string, names: readonly string[], skip?: ReadonlySet<string>): Promise<string[]> {
  const found: string[] = [];
  for await (const { file, problem } of walkFiles(names, workIn(folder), skip)) {
    found.push(problem === null ? file : `${file}: ${problem.message}`);
  }
  return found;
}

describe('walkFiles', () => {
  it('finds files named and those in folders, however deep, by name', async () => {
    const folder = makeFolder({ 'b/2.dex': '', 'b/10.dex': '', 'b/a/1.dex': '', 'z.dex': '', 'c.dex': '' });
    expect(await walk(folder, ['z.dex', 'b', 'c.dex'])).toEqual(['z.dex', 'b/10.dex', 'b/2.dex', 'b/a/1.dex', 'c.dex']);
    expect(await walk(folder, ['.'])).toEqual(['b/10.dex', 'b/2.dex', 'b/a/1.dex', 'c.dex', 'z.dex']);
    expect(await walk(folder, ['-'])).toEqual(['-']);
  });

  it('goes into folders as deep as anybody makes them, says where they are deeper, and goes on', {
    timeout: 60_000,
  }, async () => {
    const folder = makeFolder({ 'z.dex': '' });
    const at = (depth: number): string => Array.from({ length: depth }, () => 'd').join('/');
    mkdirSync(join(folder, at(1500)), { recursive: true });
    writeFileSync(join(folder, at(DEEPEST_FOLDER - 1), 'last.dex'), '');
    writeFileSync(join(folder, at(DEEPEST_FOLDER), 'lost.dex'), '');
    const found = await walk(folder, ['.']);
    // The system's own takes them away one by one; Node's overruns the stack.
    execFileSync('rm', ['-rf', join(folder, 'd')]);
    expect(found).toHaveLength(3);
    expect(found[0]).toContain(`it lies more than ${DEEPEST_FOLDER} folders deep; move it further up`);
    expect(found.slice(1)).toEqual([`${at(DEEPEST_FOLDER - 1)}/last.dex`, 'z.dex']);
  });

  it.skipIf(process.platform !== 'linux')('takes files whose names are no UTF-8 by their bytes', async () => {
    const folder = makeFolder();
    const name = (text: string): Buffer => Buffer.concat([Buffer.from(`${folder}/`), Buffer.from(text, 'latin1')]);
    mkdirSync(name('r\xe9'));
    for (const file of ['r\xe9/\xe9.dex', 'r\xe9/\xea.dex', '\xff.dex']) writeFileSync(name(file), file, 'latin1');
    const found = await walk(folder, ['.']);
    expect(found).toEqual(['r\udce9/\udce9.dex', 'r\udce9/\udcea.dex', '\udcff.dex']);
    const texts: string[] = [];
    for (const file of found) {
      for await (const chunk of readChunks(file, workIn(folder))) texts.push(Buffer.from(chunk).toString('latin1'));
    }
    expect(texts).toEqual(['r\xe9/\xe9.dex', 'r\xe9/\xea.dex', '\xff.dex']);
    // Named in a shell: Node gives programs such a byte as U+FFFD.
    expect(await walk(folder, ['\ufffd.dex'])).toEqual(['\udcff.dex']);
    expect(await walk(folder, ['r\udce9/\ufffd.dex'])).toEqual([
      'r\udce9/\ufffd.dex: r\\u{DCE9}/\ufffd.dex could not be read: there is no such file or folder.',
    ]);
  });

  it('says what is not there, and goes on', async () => {
    const folder = makeFolder({ 'a.dex': '' });
    expect(await walk(folder, ['gone.dex', 'a.dex', 'a.dex/x'])).toEqual([
      'gone.dex: gone.dex could not be read: there is no such file or folder.',
      'a.dex',
      'a.dex/x: a.dex/x could not be read: a part of its path is no folder.',
    ]);
  });

  it('says so where a folder holds no file', async () => {
    expect(await walk(makeFolder(), ['.'])).toEqual(['.: . could not be read: there is no file in this folder.']);
  });

  it('follows links, each folder once, and out of circles', async () => {
    const folder = makeFolder({ 'a/1.dex': '', 'b/2.dex': '' });
    symlinkSync('..', join(folder, 'a/up'));
    symlinkSync('../b/2.dex', join(folder, 'a/link.dex'));
    symlinkSync('nowhere', join(folder, 'b/broken'));
    symlinkSync('round', join(folder, 'b/round'));
    expect(await walk(folder, ['a'])).toEqual([
      'a/1.dex',
      'a/link.dex',
      'a/up/b/2.dex',
      'a/up/b/broken: a/up/b/broken could not be read: there is no such file or folder.',
      'a/up/b/round: a/up/b/round could not be read: its links lead in a circle.',
    ]);
  });

  it('passes over the sheets of the office, under whatever name a folder holds them', async () => {
    const folder = makeFolder({ 'in/a.dex': '', 'in/machines.csv': '' });
    symlinkSync('machines.csv', join(folder, 'in/also.csv'));
    const skip = new Set([realpathSync(join(folder, 'in/machines.csv'))]);
    expect(await walk(folder, ['in'], skip)).toEqual(['in/a.dex']);
    // One that is named outright is meant.
    expect(await walk(folder, ['in/machines.csv'], skip)).toEqual(['in/machines.csv']);
  });

  it('passes over whole folders, also where a link leads to them', async () => {
    const folder = makeFolder({ 'in/a.dex': '', 'in/out/day.json': '', 'out/b.dex': '' });
    symlinkSync('out', join(folder, 'in/way'));
    const skip = new Set([realpathSync(join(folder, 'in/out'))]);
    expect(await walk(folder, ['in'], skip)).toEqual(['in/a.dex']);
    symlinkSync('in', join(folder, 'link'));
    expect(await walk(folder, ['link'], skip)).toEqual(['link/a.dex']);
    // One that is named outright is meant.
    expect(await walk(folder, ['in/out'], skip)).toEqual(['in/out/day.json']);
  });

  it.skipIf(process.platform === 'win32')('does not wait for pipes that lie in a folder', async () => {
    const folder = makeFolder({ 'in/a.dex': '' });
    execFileSync('mkfifo', [join(folder, 'in/pipe')]);
    expect(await walk(folder, ['in'])).toEqual([
      'in/a.dex',
      'in/pipe: in/pipe could not be read: it is no file but a pipe, socket or device.',
    ]);
  });

  it.skipIf(process.platform === 'win32' || process.getuid?.() === 0)('says where there is no permission', async () => {
    const folder = makeFolder({ 'in/closed/a.dex': '', 'in/b.dex': '' });
    chmodSync(join(folder, 'in/closed'), 0);
    const found = await walk(folder, ['in']);
    chmodSync(join(folder, 'in/closed'), 0o755);
    expect(found).toEqual(['in/b.dex', 'in/closed: in/closed could not be read: there is no permission to read it.']);
  });
});
