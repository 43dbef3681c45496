import { describe, expect, it } from 'vitest';
import { countsOfDay } from '../../../src/book/closing/index.js';
import { runProgram } from '../../cli/run-program.js';
import { openBook, temporaryPath } from '../store/temporary-book.js';

const FIXTURES = 'fixtures/demo';
const SHEETS = ['--machines', `${FIXTURES}/machines.csv`, '--captures-list', `${FIXTURES}/captures.csv`];

describe('countsOfDay', () => {
  it('is null where no bag of the day is in the book', async () => {
    expect(await countsOfDay(await openBook(), '2026-11-23')).toBeNull();
  });

  it('has the bags in their own money, settled as the day was closed', async () => {
    const path = temporaryPath();
    const given = ['--book', path, '--day', '2026-11-23', ...SHEETS];
    await runProgram(['day', `${FIXTURES}/captures`, ...given]);
    const how = ['--tolerance', '0.50', '--window', '45', '--close', '--by', 'Office'];
    await runProgram(['settle', ...given, '--counts', `${FIXTURES}/counts.csv`, ...how]);
    const counts = (await countsOfDay(await openBook(path), '2026-11-23'))!;
    expect(counts.rows.map(({ bag }) => bag).sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((number) => `B440${number}`));
    expect(counts.rows.find(({ bag }) => bag === 'B4406')).toMatchObject({
      machine: 'V106',
      coins: 12110,
      bills: 11500,
    });
    expect([counts.money.decimalsOf('V106'), counts.money.currencyOf('V106'), counts.money.currencyOf('X')]).toEqual([
      2,
      'EUR',
      null,
    ]);
    expect(counts.money.decimalsOf('X')).toBeNull();
    expect(counts.settle).toEqual({
      tolerance: { amount: 50, basisPoints: 0 },
      windowMinutes: 45,
      ignoreHandMoves: false,
    });
  });
});
