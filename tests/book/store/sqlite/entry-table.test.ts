import { describe, expect, it } from 'vitest';
import type { BookStore, EntryQuery } from '../../../../src/book/store/index.js';
import { gather, makeCapture, makeCount, openBook, RECORDED_AT } from '../temporary-book.js';

async function makeFilledBook(): Promise<BookStore> {
  const book = await openBook();
  await book.recordCaptures([makeCapture('a'), makeCapture('b', { kind: 'set-aside', reads: [] })]);
  await book.recordEntries([
    makeCount('bag 1'),
    makeCount('bag 2', { subject: 'machine M-2', day: '2026-11-25' }),
    { kind: 'count-corrected', recordedAt: RECORDED_AT, refersTo: 2, body: { coins: 1300, why: 'miscounted' } },
    { kind: 'settlement-closed', recordedAt: RECORDED_AT, subject: 'route 7', day: '2026-11-25', key: 'r7', body: {} },
  ]);
  await book.recordCaptures([makeCapture('c')]);
  return book;
}

describe('entries', () => {
  it('come back as they were recorded', async () => {
    const book = await makeFilledBook();
    expect(await book.entry(3)).toEqual({
      seq: 3,
      kind: 'count-entered',
      recordedAt: RECORDED_AT,
      subject: 'machine M-2',
      day: '2026-11-25',
      key: 'bag 2',
      refersTo: null,
      body: '{"bag":"bag 2","bills":2000,"coins":1250}',
    });
    expect(await book.entry(7)).toBeNull();
    expect(await book.entry(-1)).toBeNull();
  });

  it.each<[string, EntryQuery, number[]]>([
    ['all', {}, [0, 1, 2, 3, 4, 5, 6]],
    ['by number', { from: 2, to: 5 }, [2, 3, 4]],
    ['by kind', { kinds: ['set-aside', 'settlement-closed'] }, [1, 5]],
    ['captures', { kinds: ['capture-taken'] }, [0, 6]],
    ['captures and others', { kinds: ['capture-taken', 'count-corrected'], from: 1 }, [4, 6]],
    ['none of a kind', { kinds: [] }, []],
    ['by subject', { subject: 'machine M-1' }, [2]],
    ['by key', { key: 'r7' }, [5]],
    ['by what they refer to', { refersTo: 2 }, [4]],
    ['by day', { dayFrom: '2026-11-25', dayTo: '2026-11-25' }, [3, 5]],
    ['up to a day', { dayTo: '2026-11-24' }, [2]],
    ['by day and kind', { dayFrom: '2026-11-24', kinds: ['count-entered'] }, [2, 3]],
  ])('are found: %s', async (_, query, expected) => {
    const found = await gather((await makeFilledBook()).entries(query));
    expect(found.map(({ seq }) => seq)).toEqual(expected);
  });

  it('come in pages, none twice and none left out', async () => {
    const book = await openBook();
    await book.recordEntries(Array.from({ length: 1001 }, (_, i) => makeCount(`bag ${i}`)));
    const seqs = (await gather(book.entries())).map(({ seq }) => seq);
    expect(seqs).toEqual(Array.from({ length: 1001 }, (_, i) => i));
    const byDay = await gather(book.entries({ dayFrom: '2026-11-24', from: 500 }));
    expect(byDay.map(({ seq }) => seq)).toEqual(seqs.slice(500));
  });

  it('may be added to while they are looked through', async () => {
    const book = await openBook();
    await book.recordEntries([makeCount('bag 0')]);
    const seen: number[] = [];
    for await (const { seq } of book.entries()) {
      seen.push(seq);
      if (seq < 5) await book.recordEntries([makeCount(`bag ${seq + 1}`)]);
    }
    expect(seen).toEqual([0, 1, 2, 3, 4, 5]);
  });
});
