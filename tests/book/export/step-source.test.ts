import { expect, it } from 'vitest';
import { StepSource } from '../../../src/book/export/step-source.js';
import { workOutStale } from '../../../src/book/run/index.js';
import type { BookStep, BookStore } from '../../../src/book/store/index.js';
import { captureAt, rosterOf, takeNight } from '../run/take-night.js';
import { gather, openBook } from '../store/temporary-book.js';

const OPTIONS = { take: { roster: rosterOf('machine,asset,currency\nM1,A1,EUR\n') } };
const VENDS = [10, 14, 20];

async function makeBook(): Promise<{ book: BookStore; steps: BookStep[] }> {
  const book = await openBook();
  const files = VENDS.map((vends, i) => ({
    name: `${i}.dex`,
    bytes: captureAt(`2026-11-0${i + 1} 10:00`, vends),
  }));
  await takeNight(book, files, OPTIONS.take);
  await workOutStale(book, OPTIONS);
  return { book, steps: await gather(book.steps()) };
}

async function* stream(...steps: readonly BookStep[]): AsyncGenerator<BookStep> {
  yield* steps;
}

const sold = async (source: AsyncIterable<{ step: { totals: { sold: number | null } }; to: { entry: number } }>) =>
  (await gather(source)).map(({ step, to }) => [to.entry, step.totals.sold]);

it('gives the figures that are kept, however few reads are held', async () => {
  const { book } = await makeBook();
  for (const readsAtOnce of [1, 200]) {
    expect(await sold(new StepSource(book, OPTIONS, readsAtOnce).ofKept(book.steps()))).toEqual([
      [1, 4],
      [2, 6],
    ]);
  }
});

it('takes those from the captures that do not fit what they rest on, or the captures of which are not kept so', async () => {
  const { book, steps } = await makeBook();
  const [first, second] = steps as [BookStep, BookStep];
  // The figures of another pair, and one that does not begin where the one before it ended.
  const wrong = { ...first, figures: second.figures };
  const across = { ...second, from: first.from, fromAt: first.fromAt, fromRests: first.fromRests };
  for (const readsAtOnce of [1, 200]) {
    const source = new StepSource(book, OPTIONS, readsAtOnce);
    expect(await sold(source.ofKept(stream(wrong, second, across)))).toEqual([
      [1, 4],
      [2, 6],
      [2, 10],
    ]);
  }
});

it('takes all from the captures where the office says something else than it did', async () => {
  const { book } = await makeBook();
  const roster = rosterOf('machine,asset,currency,decimals\nM1,A1,EUR,3\n');
  const [dated] = await gather(new StepSource(book, { take: { roster } }).ofKept(book.steps()));
  // The capture itself says two decimals.
  expect(dated!.step).toMatchObject({ currency: 'EUR', totals: { sold: 4, value: 600 } });
  expect(dated!.step.columns[0]).toHaveProperty('soldDifference');
});

it('makes the steps of machines that are not worked out as working out would make them', async () => {
  const { book } = await makeBook();
  for (const readsAtOnce of [1, 200]) {
    expect(await sold(new StepSource(book, OPTIONS, readsAtOnce).ofMachines(['machine M1']))).toEqual([
      [1, 4],
      [2, 6],
    ]);
  }
});

it('says so when a read is missing', async () => {
  const { book, steps } = await makeBook();
  const lost = { ...steps[0]!, to: { entry: 7, number: 0 } };
  await expect(gather(new StepSource(book, OPTIONS).ofKept(stream(lost)))).rejects.toMatchObject({
    kind: 'corrupted',
    message: 'Read 0 of entry 7 is missing. Verify the book.',
  });
});
