import { describe, expect, it } from 'vitest';
import { countChangedRounds } from '../../../src/book/closing/index.js';
import { changesOf, countChanges, listChangedDays, rememberTables } from '../../../src/book/run/index.js';
import { makeCount, openBook } from '../store/temporary-book.js';

describe('days whose rounds have changed', () => {
  it('are counted once for what was recorded of them since they were gone through, where they have tables', async () => {
    const book = await openBook();
    await rememberTables(book, '2026-11-24', 'a');
    await rememberTables(book, '2026-11-24', 'b');
    await rememberTables(book, '2026-11-25', 'c');
    await countChangedRounds(book);
    expect(await listChangedDays(book)).toEqual([]);
    await book.recordEntries([makeCount('B1'), makeCount('B2'), makeCount('B3', { day: '2026-11-26' })]);
    await countChangedRounds(book);
    await countChangedRounds(book);
    expect(await listChangedDays(book)).toEqual([{ day: '2026-11-24', folders: ['a', 'b'], changes: 1 }]);
    await book.recordEntries([makeCount('B1 again', { kind: 'count-corrected', refersTo: 0 })]);
    await countChangedRounds(book);
    expect(await changesOf(book, '2026-11-24')).toBe(2);
  });

  it('are of all days that are named and have tables', async () => {
    const book = await openBook();
    await rememberTables(book, '2026-11-24', 'a');
    await countChanges(book, ['2026-11-24', '2026-11-25']);
    await countChanges(book, []);
    expect(await listChangedDays(book)).toEqual([{ day: '2026-11-24', folders: ['a'], changes: 1 }]);
  });
});
