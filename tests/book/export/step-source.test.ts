import { expect, it } from 'vitest';
import { StepSource } from '../../../src/book/export/step-source.js';
import type { BookInterval } from '../../../src/book/store/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { gather, makeCapture, makeRead, openBook, sha256Of } from '../store/temporary-book.js';

const pair = (from: number, to: number): BookInterval => ({
  from: { entry: from, number: 0 },
  to: { entry: to, number: 0 },
  machine: 'asset A1',
  fromAt: null,
  toAt: null,
  currency: null,
  decimals: null,
  sold: null,
  value: null,
  severity: null,
  body: null,
});

async function* stream(...pairs: readonly BookInterval[]): AsyncGenerator<BookInterval> {
  yield* pairs;
}

async function makeBook() {
  const book = await openBook();
  for (const vends of [10, 14, 20]) {
    const lines = ['ID1*S1*M****A1', 'ID4*2*978*EUR', 'PA1*11*150', `PA2*${vends}*${vends * 150}`];
    const bytes = Buffer.from(buildCapture(lines));
    const reads = [makeRead(`${vends}`, { machine: 'asset A1' })];
    await book.recordCaptures([makeCapture('x', { bytes, sha256: sha256Of(bytes), size: bytes.length, reads })]);
  }
  return book;
}

const OPTIONS = { take: { roster: new Roster() } };

it('makes the figures of the pairs it is given, however few reads are held', async () => {
  const book = await makeBook();
  for (const readsAtOnce of [1, 200]) {
    const source = new StepSource(book, OPTIONS, readsAtOnce);
    // In order, and one that does not begin where the one before it ended.
    const placed = await gather(source.ofPairs(stream(pair(0, 1), pair(1, 2), pair(0, 2))));
    expect(placed.map(({ interval, to }) => [to.entry, interval.totals.sold])).toEqual([
      [1, 4],
      [2, 6],
      [2, 10],
    ]);
  }
});

it('says so when a read is missing', async () => {
  const source = new StepSource(await makeBook(), OPTIONS);
  await expect(gather(source.ofPairs(stream(pair(0, 7))))).rejects.toMatchObject({
    kind: 'corrupted',
    message: 'Read 0 of entry 7 is missing. Verify the book.',
  });
});
