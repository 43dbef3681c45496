import { utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileTimeOf, isUnchanged, lookAtFile } from '../../../src/book/intake/file-facts.js';
import { makeFolder } from '../../io/temporary-folder.js';

const facts = { path: '/in/a.dex', size: 1, modifiedMs: 0, changedMs: 0 };

describe('what the file system says of a file', () => {
  it('is its size and times; nothing of what is no file', () => {
    const folder = makeFolder({ 'a.dex': 'PA1' });
    expect(lookAtFile(join(folder, 'a.dex'))).toMatchObject({ path: join(folder, 'a.dex'), size: 3 });
    expect(lookAtFile(folder)).toBeNull();
    expect(() => lookAtFile(join(folder, 'b.dex'))).toThrow('ENOENT');
  });

  it('shows a change of size, of content and of attributes', () => {
    const path = join(makeFolder({ 'a.dex': 'PA1' }), 'a.dex');
    const before = lookAtFile(path)!;
    expect(isUnchanged(before, lookAtFile(path)!)).toBe(true);
    writeFileSync(path, 'PA2*');
    expect(isUnchanged(before, lookAtFile(path)!)).toBe(false);
    for (const change of [{ size: 2 }, { modifiedMs: 1 }, { changedMs: 1 }]) {
      expect(isUnchanged(facts, { ...facts, ...change })).toBe(false);
    }
  });

  it('is a time on the wall of this computer, also one in the future, and none where no calendar has it', () => {
    const path = join(makeFolder({ 'a.dex': '' }), 'a.dex');
    const moment = new Date(2031, 0, 2, 3, 4, 5);
    utimesSync(path, moment, moment);
    expect(fileTimeOf(lookAtFile(path)!)).toBe('2031-01-02T03:04:05');
    for (const modifiedMs of [Number.NaN, -1e13, 1e15]) expect(fileTimeOf({ ...facts, modifiedMs })).toBeNull();
  });
});
