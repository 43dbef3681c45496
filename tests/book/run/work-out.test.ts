import { describe, expect, it } from 'vitest';
import { workOutStale } from '../../../src/book/run/index.js';
import type { BookStore, StaleMachine, WorkedOut } from '../../../src/book/store/index.js';
import { joinCaptures } from '../../support/build-capture.js';
import { openBook } from '../store/temporary-book.js';
import {
  captureAt,
  dailyCaptures,
  figuresOf,
  type NightFile,
  rosterOf,
  soldInSteps,
  takeNight,
  workedOut,
} from './take-night.js';

const MACHINES = 'machine,asset,currency\nM1,A1,EUR\n';
const TAKE = { roster: rosterOf(MACHINES) };

async function play(nights: readonly (readonly NightFile[])[], take = TAKE): Promise<BookStore> {
  const store = await openBook();
  for (const files of nights) {
    await takeNight(store, files, take);
    await workOutStale(store, { take });
  }
  return store;
}

async function expectAsAnew(store: BookStore, take = TAKE): Promise<void> {
  const before = await workedOut(store);
  await store.forgetSteps();
  await workOutStale(store, { take });
  expect(await workedOut(store)).toEqual(before);
}

/** A file with the same read in another wrapping. */
const again = ({ name, bytes }: NightFile): NightFile => ({
  name: `again-${name}`,
  bytes: joinCaptures(bytes, new Uint8Array(4)),
});

/** What is asked of the store while the work is done. */
function watch(store: BookStore): { store: BookStore; work: WorkedOut[] } {
  const work: WorkedOut[] = [];
  const watched = new Proxy(store, {
    get: (target, name) => {
      const value = Reflect.get(target, name) as unknown;
      if (typeof value !== 'function') return value;
      if (name !== 'workOut') return value.bind(target);
      return async (all: readonly WorkedOut[]) => {
        work.push(...all);
        return target.workOut(all);
      };
    },
  });
  return { store: watched, work };
}

const STOPPED = new Error('stopped');

/** A store that gives up at its so-manieth call. */
function stopAfter(store: BookStore, calls: number): BookStore {
  let left = calls;
  return new Proxy(store, {
    get: (target, name) => {
      const value = Reflect.get(target, name) as unknown;
      if (typeof value !== 'function') return value;
      if (--left <= 0) throw STOPPED;
      return value.bind(target);
    },
  });
}

describe('workOutStale', () => {
  it('keeps what each step sold, and nothing is left to do', async () => {
    const store = await play([dailyCaptures([1, 3, 4])]);
    const kept = await figuresOf(store);
    const { reads } = await workedOut(store);
    // Ten vends a day at 1.50, by hand.
    const figures = kept.map(({ step: { fromAt, toAt }, figures: { totals, currency } }) => [
      ...[fromAt, toAt, totals.sold, totals.value, currency],
    ]);
    expect(figures).toEqual([
      ['2026-11-01T10:00:00', '2026-11-03T10:00:00', 20, 3000, 'EUR'],
      ['2026-11-03T10:00:00', '2026-11-04T10:00:00', 10, 1500, 'EUR'],
    ]);
    expect(kept[0]!.step.machine).toBe('machine M1');
    expect(kept[0]!.figures.columns).toMatchObject([{ column: '11', sold: 20, value: 3000, priceTo: 150 }]);
    expect(reads.map(({ era }) => era)).toEqual([0, 0, 0]);
    expect(await workOutStale(store, { take: TAKE })).toEqual({ machines: 0, steps: 0 });
  });

  it('looks at the reads around a new one only, however long the history is', async () => {
    const book = await play([dailyCaptures([1, 2, 3, 4, 5, 6, 7, 8])]);
    await takeNight(book, dailyCaptures([9]), TAKE);
    const { store, work } = watch(book);
    await workOutStale(store, { take: TAKE });
    expect(work.map(({ window, steps }) => [window.length, steps.length])).toEqual([[2, 1]]);
    await expectAsAnew(book);
  });

  it('puts a late capture in its place, and works out the steps on both sides of it', async () => {
    const book = await play([dailyCaptures([1, 2, 4, 5])]);
    await takeNight(book, dailyCaptures([3]), TAKE);
    const { store, work } = watch(book);
    await workOutStale(store, { take: TAKE });
    expect(work.map(({ window }) => window.length)).toEqual([3]);
    expect(await soldInSteps(book)).toEqual([10, 10, 10, 10]);
    await expectAsAnew(book);
  });

  it('takes a capture earlier than all others, and one without a clock, by the whole history', async () => {
    const book = await play([dailyCaptures([2, 3]), dailyCaptures([1]), dailyCaptures([4], { ID5: '' })]);
    expect((await soldInSteps(book)).sort()).toEqual([10, 10, 10]);
    expect((await workedOut(book)).reads.every(({ era }) => era !== 0)).toBe(true);
    await expectAsAnew(book);
    await takeNight(book, dailyCaptures([5]), TAKE);
    await workOutStale(book, { take: TAKE });
    await expectAsAnew(book);
  });

  it('counts a copy that comes later once, and finds what it is a copy of far back', async () => {
    const files = dailyCaptures([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    // The list says when the copy was received, so that it is the one that is kept, and lies far from its clock.
    const take = { roster: rosterOf(MACHINES, 'file,received_at\nagain-2.dex,2026-11-09 20:00\n') };
    const book = await play([files.slice(0, 4), files.slice(4), [again(files[1]!)]], take);
    expect((await workedOut(book)).reads.filter(({ duplicateOf }) => duplicateOf !== null)).toMatchObject([
      { entry: 1, duplicateOf: { entry: 9, number: 0 } },
    ]);
    await expectAsAnew(book, take);
  });

  it('finds the original of a copy whose time received says another day', async () => {
    const files = dailyCaptures([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    const list = 'file,received_at\n2.dex,2026-11-02 10:00\nagain-2.dex,2026-11-09 20:00\n';
    const take = { roster: rosterOf(MACHINES, list) };
    const book = await play([files, [again(files[1]!)]], take);
    expect((await workedOut(book)).reads.at(-1)).toMatchObject({ duplicateOf: { entry: 1 }, position: null });
    expect(await figuresOf(book)).toHaveLength(8);
    await expectAsAnew(book, take);
  });

  it('looks past copies and damaged captures for a read that has its place', async () => {
    const files = dailyCaptures([1, 2, 3]);
    const copies = ['a', 'b', 'c', 'd', 'e'].map((name, i) => ({
      name: `${name}.dex`,
      bytes: joinCaptures(files[2]!.bytes, new Uint8Array(i + 1)),
    }));
    const torn = dailyCaptures([4, 5, 6, 7, 8]).map(({ name, bytes }) => ({ name, bytes: bytes.slice(0, 90) }));
    const book = await play([files, copies, torn]);
    await takeNight(book, dailyCaptures([9]), TAKE);
    const { store, work } = watch(book);
    await workOutStale(store, { take: TAKE });
    expect(await soldInSteps(book)).toEqual([10, 10, 60]);
    expect(work[0]!.window.length).toBeGreaterThan(6);
    await expectAsAnew(book);
  });

  it('learns from a list of today when and why an earlier capture came', async () => {
    const store = await play([dailyCaptures([1, 2])]);
    const list = 'file,received_at,reason,bag,filled\n2.dex,2026-11-02 10:03,service,B7,yes\n';
    const take = { roster: rosterOf(MACHINES, list) };
    await takeNight(store, dailyCaptures([3]), take, '2026-11-02');
    await workOutStale(store, { take });
    expect((await workedOut(store)).reads[1]).toMatchObject({
      receivedAt: '2026-11-02T10:03:00',
      reason: 'service',
      bag: 'B7',
      facts: { filled: true },
    });
  });

  it('keeps the reads of a machine together that the roster has lost', async () => {
    const store = await play([dailyCaptures([1, 2])]);
    await takeNight(store, dailyCaptures([3]), TAKE);
    await workOutStale(store, { take: { roster: rosterOf('machine,asset\nM9,A9\n') } });
    expect((await figuresOf(store)).map(({ step, figures }) => [step.machine, figures.totals.sold])).toEqual([
      ['machine M1', 10],
      ['machine M1', 10],
    ]);
  });

  it('works a machine out again, all of it, to which something came meanwhile', async () => {
    const book = await play([dailyCaptures([1, 2, 3, 4, 5, 6])]);
    await takeNight(book, dailyCaptures([7]), TAKE);
    const { store, work } = watch(book);
    let isFirst = true;
    const rival = new Proxy(store, {
      get: (target, name) => {
        const value = Reflect.get(target, name) as unknown;
        if (typeof value !== 'function') return value;
        if (name !== 'workOut' || !isFirst) return value.bind(target);
        return async (all: readonly WorkedOut[]) => {
          isFirst = false;
          await takeNight(book, dailyCaptures([8]), TAKE);
          return target.workOut(all);
        };
      },
    });
    await workOutStale(rival, { take: TAKE });
    expect(work.map(({ window }) => window.length)).toEqual([2, 8]);
    expect(await book.staleMachines()).toEqual([] satisfies StaleMachine[]);
    await expectAsAnew(book);
  });

  it('comes to the same when it is stopped at any call and done again', async () => {
    const nights = [
      dailyCaptures([1, 2, 5]),
      dailyCaptures([6, 3]),
      dailyCaptures([4], { CB1: 'CB1*B2' }),
      dailyCaptures([7]),
    ];
    const unstopped = await workedOut(await play(nights));
    for (let stopAt = 1; stopAt <= 4; stopAt++) {
      const book = await openBook();
      for (const files of nights) {
        await takeNight(book, files, TAKE);
        await workOutStale(stopAfter(book, stopAt), { take: TAKE }).catch((error: Error) =>
          expect(error).toBe(STOPPED),
        );
        await workOutStale(book, { take: TAKE });
      }
      expect(await workedOut(book)).toEqual(unstopped);
    }
  });

  it('works out many machines in batches, and tells of each', async () => {
    const store = await openBook();
    const files = Array.from({ length: 60 }, (_, i) =>
      [1, 2, 3, 4, 5, 6, 7, 8].map((day) => ({
        name: `${i}-${day}.dex`,
        bytes: captureAt(`2026-11-0${day} 10:00`, day, { ID1: `ID1*S${i}*MODEL-A****B${i}` }),
      })),
    ).flat();
    await takeNight(store, files, TAKE);
    const told: string[] = [];
    const tally = await workOutStale(store, { take: TAKE, onMachine: (machine) => told.push(machine) });
    expect(tally).toEqual({ machines: 60, steps: 60 * 7 });
    expect(new Set(told).size).toBe(60);
  });
});
