import { expect, it } from 'vitest';
import { CaptureRows } from '../../../src/book/export/capture-rows.js';
import { gather, makeCapture, makeRead, openBook } from '../store/temporary-book.js';

it('names machines as the other tables do, and files as they came', async () => {
  const book = await openBook();
  const reads = ['machine V1', 'asset A2', null].map((machine, number) => makeRead(`r${number}`, { number, machine }));
  await book.recordCaptures([makeCapture('x', { name: 'joined.dex', reads })]);
  const rows = new CaptureRows(book, 1);
  const made = [];
  for (const read of await gather(book.reads())) made.push(await rows.ofRead(read));
  expect(made.map(({ machine, file, number }) => [machine, file, number])).toEqual([
    ['V1', 'joined.dex', 0],
    ['asset A2', 'joined.dex', 1],
    [null, 'joined.dex', 2],
  ]);
});

it('knows few files at a time, and says so when the entry of one is missing', async () => {
  const book = await openBook();
  await book.recordCaptures(['a', 'b', 'c'].map((text) => makeCapture(text)));
  const rows = new CaptureRows(book, 1);
  const reads = await gather(book.reads());
  for (const read of [...reads, ...reads]) expect((await rows.ofRead(read)).file).toBe(`${'abc'[read.entry]}.dex`);
  await expect(rows.ofRead({ ...reads[0]!, entry: 9 })).rejects.toMatchObject({ kind: 'corrupted' });
});
