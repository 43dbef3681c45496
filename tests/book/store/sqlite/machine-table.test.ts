import { describe, expect, it } from 'vitest';
import type { BookStore, WorkedOut } from '../../../../src/book/store/index.js';
import { makeCapture, makeRead, openBook } from '../temporary-book.js';

const nothing = (machine: string, asOf: number): WorkedOut => ({
  machine,
  asOf,
  window: [],
  changed: [],
  steps: [],
});

const take = (book: BookStore, text: string, clock: string | null, receivedAt: string | null = null) =>
  book.recordCaptures([makeCapture(text, { reads: [makeRead(text, { clock, receivedAt })] })]);

describe('stale machines', () => {
  it('are those with reads that came in, from the earliest time of these on', async () => {
    const book = await openBook();
    expect(await book.staleMachines()).toEqual([]);
    await take(book, 'a', '2026-11-24T10:00:00');
    await take(book, 'b', '2026-11-24T12:00:00', '2026-11-24T09:00:00');
    expect(await book.staleMachines()).toEqual([{ machine: 'machine M-1', revision: 2, since: '2026-11-24T09:00:00' }]);
  });

  it('may have changed anywhere when a read has no time', async () => {
    const book = await openBook();
    await take(book, 'a', '2026-11-24T10:00:00');
    await take(book, 'b', null);
    await take(book, 'c', '2026-11-24T12:00:00');
    expect(await book.staleMachines()).toMatchObject([{ since: null }]);
  });

  it('are so no more when worked out, until the next read', async () => {
    const book = await openBook();
    await take(book, 'a', '2026-11-24T10:00:00');
    await book.workOut([nothing('machine M-1', 1)]);
    expect(await book.staleMachines()).toEqual([]);
    await take(book, 'b', '2026-11-24T12:00:00');
    expect(await book.staleMachines()).toEqual([{ machine: 'machine M-1', revision: 2, since: '2026-11-24T12:00:00' }]);
  });

  it('stay so when more came in while they were worked out', async () => {
    const book = await openBook();
    await take(book, 'a', '2026-11-24T10:00:00');
    const [{ revision } = { revision: -1 }] = await book.staleMachines();
    await take(book, 'b', '2026-11-24T12:00:00');
    await book.workOut([nothing('machine M-1', revision)]);
    expect(await book.staleMachines()).toEqual([{ machine: 'machine M-1', revision: 2, since: '2026-11-24T10:00:00' }]);
  });

  it('are not made by reads that belong to no machine, or files that are in the book', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('a', { reads: [makeRead('a', { machine: null })] })]);
    expect(await book.staleMachines()).toEqual([]);
    await take(book, 'b', '2026-11-24T12:00:00');
    await book.workOut([nothing('machine M-1', 1)]);
    await take(book, 'b', '2026-11-24T12:00:00');
    expect(await book.staleMachines()).toEqual([]);
  });
});

describe('machines', () => {
  it('are known from reads and from what is said of them, which is replaced', async () => {
    const book = await openBook();
    await take(book, 'a', '2026-11-24T10:00:00');
    await book.rememberMachines([{ key: 'machine M-2', facts: { route: '7' } }]);
    expect(await book.machines()).toEqual([
      { key: 'machine M-1', facts: null },
      { key: 'machine M-2', facts: { route: '7' } },
    ]);
    await book.rememberMachines([
      { key: 'machine M-1', facts: { route: '8' } },
      { key: 'machine M-2', facts: null },
    ]);
    expect(await book.machines()).toEqual([
      { key: 'machine M-1', facts: { route: '8' } },
      { key: 'machine M-2', facts: null },
    ]);
    expect((await book.staleMachines()).map(({ machine }) => machine)).toEqual(['machine M-1']);
  });
});
