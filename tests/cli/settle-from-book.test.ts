import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../book/store/temporary-book.js';
import { type Outcome, runProgram } from './run-program.js';

const DAY = ['--day', '2026-11-23'];
const COUNTS = ['--counts', 'fixtures/demo/counts.csv'];
const CLOSE = ['--close', '--by', 'Kim Example'];
const run = (argv: readonly string[], cwd?: string): Promise<Outcome> =>
  runProgram(['settle', ...argv], cwd === undefined ? {} : { cwd });

describe('options of settle with a book', () => {
  const BOOK = ['--book', 'coilbook.db'];
  it.each([
    [[...BOOK, '--captures', 'captures', ...DAY], '--captures and --book cannot be given together'],
    [[...BOOK], '--day: with --book the day that is settled must be given'],
    [[...BOOK, ...DAY, '--close'], '--by: who closes or corrects must be given, for the book keeps it'],
    [[...BOOK, ...DAY, '--close', '--by', '  '], '--by: expected some words, not "  "'],
    [[...BOOK, ...DAY, '--by', 'Kim'], '--by goes with --record, --close, --correct, --corrects or --withdraw'],
    [[...BOOK, ...DAY, '--correct', 'x', '--by', 'Kim'], '--correct: the counts must be given (--counts)'],
    [
      ['--captures', 'captures', ...COUNTS, '--close'],
      '--record, --close, --correct, --corrects, --withdraw and --by need a book: name it with --book',
    ],
  ])('%j is wrong use', async (argv, message) => {
    expect(await run(argv)).toMatchObject({ status: 64, out: '', err: `coilbook: ${message}\n` });
  });

  it('a book that is not there is said, and none is made', async () => {
    const folder = temporaryFolder();
    const { status, err } = await run(['--book', 'gone.db', ...DAY, ...CLOSE], folder);
    expect([status, err]).toEqual([66, expect.stringContaining('gone.db is not there')]);
    expect(readdirSync(folder)).not.toContain('gone.db');
  });
});
