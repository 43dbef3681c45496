import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { DayPages } from '../../src/cli/day-pages.js';
import { makeFolder } from '../io/temporary-folder.js';
import { textOf } from '../pages/support/look-at-page.js';
import { runProgram } from './run-program.js';

const DEMO = fileURLToPath(new URL('../../fixtures/demo/', import.meta.url));
const OFFICE = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];
const DAY = ['--day', '2026-11-23'];

describe('pages of a day', () => {
  const run = async (...argv: string[]) => {
    const outcome = await runProgram(argv, { cwd: DEMO });
    expect(outcome.status).toBeLessThanOrEqual(2);
    return outcome;
  };
  const pageOf = (out: string, name: string): string => textOf(readFileSync(join(out, name), 'utf8'));

  it('are written beside the tables, and made again from the book with what was closed since', async () => {
    const folder = makeFolder({});
    const [book, out, again] = ['book.db', 'out', 'again'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    const day = await run('day', 'captures', '--book', book, ...DAY, ...OFFICE, '--counts', 'counts.csv', '--out', out);
    expect(day.out.replaceAll(/\n +/g, ' ')).toContain(`Pages to look at and print: ${join(out, 'index.html')}`);
    const names = readdirSync(out);
    expect(names).toEqual(
      expect.arrayContaining(['index.html', 'sales.csv', 'machine-v107.html', 'settlement-r7-eur.html']),
    );
    expect(names.filter((name) => name.endsWith('.part'))).toEqual([]);
    expect(pageOf(out, 'settlement-r7-eur.html')).toContain('Not closed');
    const close = ['--close', '--by', 'Office', '--counts', 'counts.csv'];
    await run('settle', '--book', book, ...DAY, ...OFFICE, ...close);
    const report = await run('report', '--book', book, ...DAY, ...OFFICE, '--out', again);
    // What was short is so without the count sheet, since the book has the bags.
    const things = /^\d+ things to look at/.exec(day.lines[0]!)![0];
    expect(report.lines[0]).toBe(`${things}; 8 of 8 machines read.`);
    const made = await run('day', '--book', book, ...DAY, ...OFFICE, '--out', join(folder, 'made'));
    expect(made.out).toContain('V106, College block B: 5.00 EUR');
    const settled = (from: string) =>
      readFileSync(join(from, 'settlement.csv'), 'utf8')
        .split('\n')
        .map((line) => line.split(',').slice(0, 9).join());
    expect(settled(join(folder, 'made'))).toEqual(settled(out));
    expect(report.out).not.toContain('Tables of the day');
    expect(existsSync(join(again, 'sales.csv'))).toBe(false);
    expect(pageOf(again, 'settlement-r7-eur.html')).toMatch(/Closed, entry \d+ .*, by Office/);
    expect(pageOf(again, 'index.html')).toContain('V107, Town archive');
  });

  it('are left out where nobody wants them', async () => {
    const folder = makeFolder({});
    const out = join(folder, 'out');
    const { out: text } = await run(
      'day',
      'captures',
      '--book',
      join(folder, 'b.db'),
      ...DAY,
      '--out',
      out,
      '--no-pages',
    );
    expect(readdirSync(out).some((name) => name.endsWith('.html'))).toBe(false);
    expect(text).not.toContain('Pages to look at');
  });

  it('of a day that is not finished are nowhere', async () => {
    const out = join(makeFolder({}), 'out');
    const pages = await DayPages.begin(out, '2026-11-23', { size: 0, root: '' });
    await pages.discard();
    expect(existsSync(out)).toBe(false);
  });
});
