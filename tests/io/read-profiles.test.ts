import { describe, expect, it } from 'vitest';
import { readProfiles } from '../../src/io/index.js';
import { makeFolder, workIn } from './temporary-folder.js';

describe('readProfiles', () => {
  it('reads files named, and all JSON files in folders', async () => {
    const folder = makeFolder({
      'own.profile': '{"name":"own","decimals":1}',
      'p/a.json': '{"name":"a"}',
      'p/deep/b.json': '{"name":"b"}',
      'p/notes.txt': 'nothing of the kind',
    });
    const { profiles, findings } = await readProfiles(['own.profile', 'p'], workIn(folder));
    expect(profiles.map(({ name }) => name)).toEqual(['own', 'a', 'b']);
    expect(findings).toEqual([]);
  });

  it('says what is wrong with one, and keeps the others', async () => {
    const folder = makeFolder({
      'a.json': '{"name":"a"}',
      'b.json': '{"name":"a","decimals":2}',
      'c.json': '{"nome":"c"}',
      'd.json': '{',
    });
    const { profiles, findings } = await readProfiles(['.', 'gone.json'], workIn(folder));
    expect(profiles).toEqual([{ name: 'a' }]);
    expect(findings.map(({ code, file }) => [code, file])).toEqual([
      ['profile-invalid', 'b.json'],
      ['profile-invalid', 'c.json'],
      ['profile-invalid', 'd.json'],
      ['unreadable-file', 'gone.json'],
    ]);
    expect(findings[0]!.message).toBe('b.json was not used: another profile is named a already.');
  });
});
