import { describe, expect, it } from 'vitest';
import type {
  BookRead,
  BookStore,
  LastReadQuery,
  ReadQuery,
  ReadToRecord,
  ReadWindow,
} from '../../../../src/book/store/index.js';
import { gather, makeCapture, makeRead, openBook, sha256Of, temporaryPath, withDatabase } from '../temporary-book.js';

/** Reads by their content: a letter for the machine and the hour of the clock. */
async function makeFilledBook(): Promise<BookStore> {
  const book = await openBook();
  const read = (name: string, changes: Partial<ReadToRecord> = {}): ReadToRecord => {
    const clock = `2026-11-24T${name.slice(1)}:00:00`;
    return makeRead(name, { machine: `machine ${name.slice(0, 1)}`, clock, facts: name, ...changes });
  };
  const late = read('A09', { receivedAt: '2026-11-24T15:00:00', reason: 'service' });
  const files: ReadToRecord[][] = [
    [read('A10'), read('B08', { number: 1, verdict: 'read-again' })],
    [read('A12', { reason: 'service' })],
    [late],
    [read('A??', { clock: null })],
    [read('A10')],
    [read('X11', { machine: null }), read('B07', { number: 1 })],
  ];
  await book.recordCaptures(files.map((reads, i) => makeCapture(`file ${i}`, { reads })));
  return book;
}

const names = (reads: readonly BookRead[]): unknown[] => reads.map(({ facts }) => facts);

describe('readsOf', () => {
  it.each<[string, ReadWindow, string[]]>([
    ['all of it, those without a time first', {}, ['A??', 'A10', 'A10', 'A12', 'A09']],
    ['all but those without a time', { isUndatedIn: false }, ['A10', 'A10', 'A12', 'A09']],
    ['a part, both ends included', { from: '2026-11-24T12:00:00', to: '2026-11-24T15:00:00' }, ['A12', 'A09']],
    ['from a time on', { from: '2026-11-24T10:00:01' }, ['A12', 'A09']],
    ['up to a time', { to: '2026-11-24T14:59:59' }, ['A10', 'A10', 'A12']],
    ['a part and those without a time', { from: '2026-11-24T13:00:00', isUndatedIn: true }, ['A??', 'A09']],
    [
      'the nearest before and after',
      { from: '2026-11-24T11:00:00', to: '2026-11-24T14:00:00', before: 1, after: 3 },
      ['A10', 'A12', 'A09'],
    ],
    ['only the nearest', { from: '2026-11-24T12:30:00', to: '2026-11-24T12:30:00', before: 2 }, ['A10', 'A12']],
  ])('gives of the history %s', async (_, window, expected) => {
    expect(names(await (await makeFilledBook()).readsOf('machine A', window))).toEqual(expected);
  });

  it('gives nothing of a machine that it does not know', async () => {
    expect(await (await makeFilledBook()).readsOf('machine Z')).toEqual([]);
  });
});

describe('reads', () => {
  it.each<[string, ReadQuery, string[]]>([
    ['all, as recorded', {}, ['A10', 'B08', 'A12', 'A09', 'A??', 'A10', 'X11', 'B07']],
    ['of some entries', { entryFrom: 1, entryTo: 3 }, ['A12', 'A09']],
    ['of a machine', { machine: 'machine B' }, ['B08', 'B07']],
    ['of no machine', { machine: null }, ['X11']],
    ['of a time', { atFrom: '2026-11-24T08:00:00', atTo: '2026-11-24T11:00:00' }, ['A10', 'B08', 'A10', 'X11']],
    ['of a machine and a time', { machine: 'machine A', atFrom: '2026-11-24T12:00:00' }, ['A12', 'A09']],
    ['by verdict', { verdict: 'read-again' }, ['B08']],
    ['by content', { content: sha256Of('A10') }, ['A10', 'A10']],
    ['the same as an earlier one', { isDuplicate: true }, ['A10']],
    ['not the same as an earlier one', { isDuplicate: false, machine: 'machine A' }, ['A10', 'A12', 'A09', 'A??']],
    ['by machine and time', { order: 'machine' }, ['X11', 'A??', 'A10', 'A10', 'A12', 'A09', 'B07', 'B08']],
  ])('gives %s', async (_, query, expected) => {
    expect(names(await gather((await makeFilledBook()).reads(query)))).toEqual(expected);
  });

  it('come in pages, none twice and none left out', async () => {
    const book = await openBook();
    const reads = Array.from({ length: 701 }, (_, number) => makeRead(`read ${number}`, { number, facts: number }));
    await book.recordCaptures([makeCapture('many', { reads })]);
    expect(names(await gather(book.reads()))).toEqual(reads.map(({ number }) => number));
  });

  it('are not left out silently when their file is gone', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([makeCapture('x')]);
    await withDatabase(path, (database) => {
      database.pragma('foreign_keys = OFF');
      database.exec('DROP TRIGGER blob_is_not_removed');
      database.exec('DELETE FROM blob');
    });
    await expect(gather(book.reads())).rejects.toMatchObject({ kind: 'corrupted' });
    await expect(book.readsOf('machine M-1')).rejects.toMatchObject({ kind: 'corrupted' });
  });
});

describe('lastReads', () => {
  it.each<[string, LastReadQuery, string[]]>([
    ['of each machine', {}, ['A09', 'B08']],
    ['up to a time', { atTo: '2026-11-24T11:00:00' }, ['A10', 'B08']],
    ['taken for a reason', { reason: 'service', atTo: '2026-11-24T14:00:00' }, ['A12']],
    ['by verdict', { verdicts: ['sound', 'doubtful'] }, ['A09', 'B07']],
    ['of none', { atTo: '2026-11-23T00:00:00' }, []],
  ])('gives the last one %s', async (_, query, expected) => {
    expect(names(await (await makeFilledBook()).lastReads(query))).toEqual(expected);
  });
});
