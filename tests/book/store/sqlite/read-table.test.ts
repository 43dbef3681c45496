import { describe, expect, it } from 'vitest';
import type { WorkedOutRead } from '../../../../src/book/store/index.js';
import { gather, makeCapture, makeRead, openBook, sha256Of, temporaryPath, withDatabase } from '../temporary-book.js';

const workedOut: WorkedOutRead = {
  entry: 0,
  number: 0,
  machine: 'machine M-2',
  receivedAt: '2026-11-24T11:00:00',
  reason: 'service',
  bag: 'bag 9',
  currency: 'SEK',
  decimals: 0,
  verdict: 'doubtful',
  at: '2026-11-24T11:00:00',
  rests: Buffer.from('what it rests on'),
  facts: { findings: [{ code: 'clock-wrong' }] },
  duplicateOf: { entry: 0, number: 1 },
  era: 2,
  position: 3.5,
};

describe('reads', () => {
  it('come back as they were recorded', async () => {
    const book = await openBook();
    const read = makeRead('x', {
      number: 4,
      receivedAt: '2026-11-24T12:00:00',
      reason: 'on demand',
      facts: { a: [1] },
    });
    await book.recordCaptures([makeCapture('x', { reads: [read] })]);
    expect(await gather(book.reads())).toEqual([
      {
        ...read,
        entry: 0,
        at: '2026-11-24T12:00:00',
        sha256: sha256Of('x'),
        duplicateOf: null,
        era: null,
        position: null,
      },
    ]);
  });

  it('keep what is recorded of them when what is worked out is replaced', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('x', { reads: [makeRead('a'), makeRead('b', { number: 1 })] })]);
    const before = (await book.piecesOf(0)).reads;
    await book.reassignReads([workedOut]);
    const { asset, clock, content } = makeRead('a');
    const [read] = await book.readsOf('machine M-2');
    expect(read).toMatchObject({ ...workedOut, asset, clock, content });
    expect((await book.piecesOf(0)).reads).toEqual(before);
  });

  it('that are not there can not be changed, and then none is', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('x')]);
    const wrong = { ...workedOut, number: 7 };
    await expect(book.reassignReads([{ ...workedOut, duplicateOf: null }, wrong])).rejects.toThrow(RangeError);
    expect(await book.readsOf('machine M-2')).toEqual([]);
  });

  it('have another digest when anything recorded of them is another', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await book.recordCaptures([makeCapture('x')]);
    const before = (await book.piecesOf(0)).reads.sha256;
    const set = (column: string, value: unknown): Promise<unknown> =>
      withDatabase(path, (database) => {
        database.exec('DROP TRIGGER IF EXISTS read_is_not_changed');
        const was = database.prepare(`SELECT ${column} FROM read`).pluck().get();
        database.prepare(`UPDATE read SET ${column} = ?`).run(value);
        return was;
      });
    for (const [column, value] of Object.entries({
      asset: null,
      serial: 'S-2',
      board: null,
      clock: null,
      content: before,
    })) {
      const was = await set(column, column === 'content' ? Buffer.from(before, 'hex') : value);
      expect((await book.piecesOf(0)).reads.sha256, column).not.toBe(before);
      await set(column, was);
    }
    expect((await book.piecesOf(0)).reads.sha256).toBe(before);
  });
});
