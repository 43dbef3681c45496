import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runProgram } from './run-program.js';

const DEMO = fileURLToPath(new URL('../../fixtures/demo/', import.meta.url));
const OFFICE = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];
const ROSTER = ['--machines', 'machines.csv'];

describe('accounts from the book', () => {
  let folder: string;
  let book: string;
  const run = (...argv: string[]) => runProgram(argv, { cwd: DEMO });

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'coilbook-'));
    book = join(folder, 'book.db');
    const { status } = await run('day', 'captures', '--book', book, '--day', '2026-11-23', ...OFFICE);
    expect(status).toBeLessThanOrEqual(2);
  });

  afterAll(() => rmSync(folder, { recursive: true }));

  const figures = (out: string): unknown[] =>
    out
      .trim()
      .split('\n')
      .map((line) => ({ ...JSON.parse(line), general: null }));

  it('are what they are from the captures', async () => {
    const sources = [
      ['--captures', 'captures'],
      ['--book', book],
    ];
    for (const command of [['deposits', '--deposits', 'deposits.csv'], ['statement']]) {
      const [files, kept] = await Promise.all(sources.map((from) => run(...command, ...from, ...OFFICE, '--json')));
      expect(figures(kept!.out)).toEqual(figures(files!.out));
      expect(kept!.status).toBe(files!.status);
    }
  });

  it('know the machines that the book remembers where no roster is given', async () => {
    const [given, remembered] = await Promise.all(
      [ROSTER, []].map((roster) => run('statement', '--book', book, ...roster, '--json')),
    );
    expect([given!.err, remembered!.err]).toEqual(['', '']);
    expect(figures(remembered!.out)).toEqual(figures(given!.out));
    expect(figures(remembered!.out).length).toBeGreaterThan(1);
  });

  it('of a period are made of what was read around it', async () => {
    const period = ['--from', '2026-11-22', '--to', '2026-11-22', '--json'];
    const [files, kept] = await Promise.all([
      run('statement', '--captures', 'captures', ...OFFICE, ...period),
      run('statement', '--book', book, ...OFFICE, ...period),
    ]);
    expect(figures(kept.out)).toEqual(figures(files.out));
  });

  it('need the one or the other, and not both', async () => {
    for (const from of [[], ['--captures', 'captures', '--book', book, ...ROSTER]]) {
      const { status, err } = await run('statement', ...from);
      expect(status).toBe(64);
      expect(err).toContain('--captures or --book: one of the two');
    }
    const { status, err } = await run('statement', '--book', 'none.db');
    expect(status).toBe(66);
    expect(err).toContain('none.db is not there');
  });
});
