import { describe, expect, it } from 'vitest';
import { findRepeats, keepAll, keepFirst } from '../../src/sheets/compare-rows.js';

const rows = ['a', null, 'b', 'a', null, 'a'].map((name, i) => ({
  row: { name, place: { file: 'x', row: i + 2 } },
  cells: [],
}));
const named = rows.filter(({ row }) => row.name !== null);

describe('comparing rows', () => {
  it('finds each row whose key came before, beside the first with that key', () => {
    const repeats = findRepeats(rows, ({ row }) => row.name);
    expect(repeats.map(({ first, again }) => [first.row.place.row, again.row.place.row])).toEqual([
      [2, 5],
      [2, 7],
    ]);
  });

  it('can take the later ones out', () => {
    const verdicts = keepFirst(
      named,
      'name',
      ({ name }) => name!,
      ({ name }) => `name ${name}`,
    );
    expect(verdicts).toEqual(
      [5, 7].map((row) => ({
        about: rows[row - 2],
        problem: {
          code: 'duplicate-row',
          says: 'name a was named in row 2 already',
          field: 'name',
          relatedRow: 2,
          spoils: 'row',
        },
      })),
    );
  });

  it('can keep them all', () => {
    const [verdict] = keepAll(rows, 'name', ({ name }) => name);
    expect(verdict).toMatchObject({
      about: rows[3],
      problem: { says: 'name "a" belongs to row 2 as well', spoils: 'nothing', done: 'Both rows are used.' },
    });
  });
});
