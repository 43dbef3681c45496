import { setTimeout as delay } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BookStore } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { buildScript, Child } from './child-process.js';
import { numberedCapture } from './numbered-captures.js';
import { gather, openBook, sha256Of, temporaryPath, withDatabase } from './temporary-book.js';

let script: string;
beforeAll(async () => {
  script = await buildScript('record-numbered.ts');
});

/** Everything in a book, for holding it against another. */
async function contentsOf(book: BookStore): Promise<unknown> {
  const entries = await gather(book.entries());
  const files = Array.from({ length: entries.length }, (_, i) => numberedCapture(i));
  const bytes = await Promise.all(files.map(({ sha256 }) => book.bytesOf(sha256)));
  return {
    head: await book.head(),
    tally: await book.tally(),
    entries,
    bytes: bytes.map((each) => each && sha256Of(each)),
    reads: await gather(book.reads()),
    seen: await book.seenFiles(files.map(({ file }) => file!)),
    stale: (await book.staleMachines()).map(({ machine, since }) => ({ machine, since })),
  };
}

async function makeUnkilled(count: number): Promise<unknown> {
  const book = await openBook();
  await book.recordCaptures(Array.from({ length: count }, (_, i) => numberedCapture(i)));
  return contentsOf(book);
}

describe('a process that is killed', () => {
  it.each([0, 3, 9])('in the middle of capture %i leaves nothing of its transaction', async (stop) => {
    const path = temporaryPath();
    const child = new Child(script, [path, 0, 20, 5, stop]);
    let recorded = 0;
    for (let line = await child.nextLine(); line !== 'in the middle'; line = await child.nextLine()) {
      expect(line).not.toBeNull();
      recorded = Number(/recorded (\d+)/.exec(line!)?.[1] ?? recorded);
    }
    await child.kill();
    const book = await openBook(path);
    expect(recorded).toBe(stop - (stop % 5));
    expect(await book.head()).toMatchObject({ size: recorded });
    expect((await verifyBook(book)).fault).toBeNull();
    // Run again, it is as if the first had never been killed.
    await book.recordCaptures(Array.from({ length: 20 }, (_, i) => numberedCapture(i)));
    expect(await contentsOf(book)).toEqual(await makeUnkilled(20));
  });

  it('at any moment, many times, leaves a book as if it never was, once the work is done', async () => {
    const path = temporaryPath();
    const count = 400;
    let before = 0;
    for (let round = 0; round < 12; round++) {
      const child = new Child(script, [path, 0, count, 1 + (round % 4)]);
      // Some rounds are let come as far as a batch or two; the rest is left to chance.
      for (let lines = 0; lines <= round % 3; lines++) await child.nextLine();
      await delay(round * 3);
      await child.kill();
      const book = await openBook(path);
      const { size } = await book.head();
      expect(size).toBeGreaterThanOrEqual(before);
      expect((await verifyBook(book)).fault).toBeNull();
      await book.close();
      before = size;
    }
    expect(before).toBeGreaterThan(0);
    const book = await openBook(path);
    await book.recordCaptures(Array.from({ length: count }, (_, i) => numberedCapture(i)));
    expect(await contentsOf(book)).toEqual(await makeUnkilled(count));
  });
});

describe('several processes at once', () => {
  it('make one book together, and take each capture once', async () => {
    const path = temporaryPath();
    const children = [new Child(script, [path, 0, 120, 1]), new Child(script, [path, 60, 200, 7])];
    children.push(new Child(script, [path, 0, 200, 3]));
    expect(await Promise.all(children.map((child) => child.status()))).toEqual([0, 0, 0]);
    const book = await openBook(path);
    expect(await book.tally()).toMatchObject({ entries: 200, blobs: 200 });
    const names = (await gather(book.entries())).map(({ body }) => (JSON.parse(body) as { file: string }).file);
    expect([...names].sort()).toEqual(Array.from({ length: 200 }, (_, i) => `${i}.dex`).sort());
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('wait for each other, and give up in the end with a clear word', async () => {
    const path = temporaryPath();
    await (await openBook(path)).recordCaptures([numberedCapture(0)]);
    const book = await openBook(path, { waitMs: 50 });
    await withDatabase(path, async (database) => {
      database.exec('BEGIN IMMEDIATE');
      await expect(book.recordCaptures([numberedCapture(1)])).rejects.toMatchObject({ kind: 'busy' });
      // Looking goes on all the same.
      expect(await book.head()).toMatchObject({ size: 1 });
      database.exec('ROLLBACK');
      expect(await book.recordCaptures([numberedCapture(1)])).toMatchObject([{ state: 'recorded', entry: 1 }]);
    });
  });
});
