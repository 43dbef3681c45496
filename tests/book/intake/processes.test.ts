import { setTimeout as delay } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BookStore } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { SeededRandom } from '../../support/demo/seeded-random.js';
import { buildScript, Child } from '../store/child-process.js';
import { gather, openBook, sha256Of, temporaryPath } from '../store/temporary-book.js';
import { LOW_LIMITS, mixedFiles } from './mixed-folder.js';
import { fileEntries, takeFolder } from './run-intake.js';

let script: string;
beforeAll(async () => {
  script = await buildScript('../intake/take-folder.ts');
});

const FILES = 240;
/** So many runs are killed, and those after them left alone. */
const KILLS = 54;

/** Everything in a book that was taken in, for holding it against another. */
async function contentsOf(book: BookStore): Promise<unknown> {
  const entries = await gather(book.entries());
  const files = await fileEntries(book);
  const bytes = await Promise.all(files.map(({ sha256 }) => book.bytesOf(sha256)));
  return {
    head: await book.head(),
    tally: await book.tally(),
    entries,
    bytes: bytes.map((each) => each && sha256Of(each)),
    reads: await gather(book.reads()),
    stale: (await book.staleMachines()).map(({ machine, since }) => ({ machine, since })),
  };
}

/** How long a process that has opened the book takes in the folder when left alone, on this machine as busy as it is. */
async function lifeOf(child: Child): Promise<number> {
  expect(await child.nextLine()).toBe('open');
  const opened = performance.now();
  expect(await child.status()).toBe(0);
  return Math.ceil(performance.now() - opened);
}

/** Kill an intake after a while. True when it was done before that. */
async function runAndKill(child: Child, random: SeededRandom, longest: number): Promise<boolean> {
  // One in eight is not even let open the book.
  if (random.nat(8) === 0) {
    await delay(random.nat(150));
  } else {
    expect(await child.nextLine()).toBe('open');
    await delay(random.nat(longest));
  }
  await child.kill();
  for (let line = await child.nextLine(); line !== null; line = await child.nextLine()) {
    if (line === 'done') return true;
  }
  return false;
}

async function runToEnd(child: Child): Promise<true> {
  expect(await child.status()).toBe(0);
  return true;
}

describe('taking in a folder', () => {
  it('gives the same book, entry by entry, however often and whenever it is killed', { timeout: 300_000 }, async () => {
    const seed = Date.now() % 1_000_000;
    const random = new SeededRandom(seed);
    const folder = makeFolder(mixedFiles(FILES));
    const unkilled = await openBook();
    const counts = await takeFolder(unkilled, folder, { limits: LOW_LIMITS });
    expect(counts.taken * counts.setAside * counts.already * counts.duplicates).toBeGreaterThan(0);
    const expected = await contentsOf(unkilled);
    const { size } = await unkilled.head();
    const longest = Math.ceil((await lifeOf(new Child(script, [temporaryPath(), folder]))) / 2);
    const partial = new Set<number>();
    let kills = 0;
    while (kills < KILLS) {
      const path = temporaryPath();
      for (let isDone = false; !isDone; ) {
        const child = new Child(script, [path, folder]);
        isDone = kills < KILLS ? await runAndKill(child, random, longest) : await runToEnd(child);
        if (!isDone) kills++;
        const book = await openBook(path);
        const { fault } = await verifyBook(book);
        expect(fault, `seed ${seed}`).toBeNull();
        const { size: reached } = await book.head();
        if (reached > 0 && reached < size) partial.add(reached);
        if (isDone) expect(await contentsOf(book), `seed ${seed}`).toEqual(expected);
        await book.close();
      }
    }
    // They were killed in the middle of it, not before or after.
    expect(partial.size, `seed ${seed}`).toBeGreaterThan(10);
  });

  it('by two processes at once gives the entries that one gives', { timeout: 60_000 }, async () => {
    const folder = makeFolder(mixedFiles(FILES));
    const [alone, path] = [await openBook(), temporaryPath()];
    await takeFolder(alone, folder, { limits: LOW_LIMITS });
    const children = [new Child(script, [path, folder]), new Child(script, [path, folder])];
    expect(await Promise.all(children.map((child) => child.status()))).toEqual([0, 0]);
    const together = await openBook(path);
    expect((await verifyBook(together)).fault).toBeNull();
    // Of several files with the same bytes either may have come first: so not by name.
    const told = async (book: BookStore): Promise<string[]> =>
      (await fileEntries(book)).map(({ kind, sha256, size, reads }) => `${sha256} ${kind} ${size} ${reads}`).sort();
    expect(await told(together)).toEqual(await told(alone));
    expect(await together.tally()).toEqual(await alone.tally());
  });
});
