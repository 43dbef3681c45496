import { describe, expect, it } from 'vitest';
import { hashSources, isMadeFrom, MADE_FROM, readMadeFrom } from '../../src/cli/made-from.js';
import { Roster, readMachines } from '../../src/sheets/index.js';
import { makeFolder } from '../io/temporary-folder.js';

const ORIGIN = {
  day: '2026-11-24',
  book: { size: 3, root: 'ab' },
  changes: 0,
  pages: true,
  sheets: 'cd',
  version: '1',
};

describe('what a folder was made from', () => {
  it('is read back, and nothing that can not be', async () => {
    const made = { ...ORIGIN, status: 1, answer: 'x' };
    expect(await readMadeFrom(makeFolder({ [MADE_FROM]: JSON.stringify(made) }))).toEqual(made);
    expect(await readMadeFrom(makeFolder({ [MADE_FROM]: '{' }))).toBeNull();
    expect(await readMadeFrom(makeFolder({ [MADE_FROM]: '{}' }))).toBeNull();
    expect(await readMadeFrom(makeFolder())).toBeNull();
  });

  it('is the same only where all of it is', () => {
    const made = { ...ORIGIN, status: 1, answer: 'x' };
    expect(isMadeFrom(made, ORIGIN)).toBe(true);
    expect(isMadeFrom(null, ORIGIN)).toBe(false);
    const others = [
      { day: '2026-11-25' },
      { sheets: 'x' },
      { version: '2' },
      { changes: 1 },
      { book: { size: 4, root: 'ab' } },
      { book: { size: 3, root: 'ac' } },
    ];
    for (const other of others) expect(isMadeFrom(made, { ...ORIGIN, ...other })).toBe(false);
  });
});

describe('hashSources', () => {
  it('tells rosters, counts, findings and options apart', () => {
    const file = { file: 'm.csv', content: Buffer.from('machine,asset\nM1,A1\n') };
    const roster = new Roster({ machines: readMachines(file).rows });
    const base = { roster, counts: null, findings: [], options: {} };
    const counts = { rows: [], findings: [], money: { fallback: null } as never, settle: { windowMinutes: 5 } };
    const finding = { code: 'sheet-unreadable', severity: 'fault', message: 'x' } as const;
    const hashes = [
      base,
      { ...base, roster: new Roster() },
      { ...base, counts },
      { ...base, findings: [finding] },
      { ...base, options: { strict: true } },
    ].map(hashSources);
    expect(new Set(hashes).size).toBe(hashes.length);
    expect(hashSources(base)).toBe(hashes[0]);
  });
});
