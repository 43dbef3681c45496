import { describe, expect, it } from 'vitest';
import { makeDayParts, workOutStale } from '../../../src/book/run/index.js';
import { shareWork } from '../../../src/book/run/share-work.js';
import type { TakenMachine } from '../../../src/book/run/take-machines.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { buildIntervals } from '../../../src/interval/index.js';
import { readsOf } from '../../day/with-steps.js';
import { takeOne } from '../../support/taken.js';
import { gather, openBook } from '../store/temporary-book.js';
import { dailyCaptures, rosterOf, takeNight, workedOut } from './take-night.js';

const ROSTER = rosterOf('machine,asset,currency\nM1,A1,EUR\n');
const KEY = 'machine M1';

async function bookWith(days: readonly number[]): Promise<BookStore> {
  const store = await openBook();
  await takeNight(store, dailyCaptures(days), { roster: ROSTER });
  return store;
}

/** The machine as a day takes it, all its reads. */
async function takeMachine(store: BookStore, changes: Partial<TakenMachine> = {}): Promise<TakenMachine> {
  const bytes = new Map(dailyCaptures([1, 2, 3, 4]).map((file) => [file.name, file.bytes]));
  const reads = (await store.readsOf(KEY)).map((kept) => {
    const file = `${kept.clock!.slice(9, 10)}.dex`;
    return { kept, taken: takeOne(bytes.get(file)!, { file, roster: ROSTER }) };
  });
  return { key: KEY, reads, isComplete: true, isFromStart: true, ...changes };
}

const share = (machine: TakenMachine, since: string | null) => {
  const intervals = buildIntervals(
    machine.reads.map(({ taken }) => taken),
    ROSTER,
  );
  return shareWork([machine], intervals, new Map([[KEY, { machine: KEY, revision: 3, since }]]));
};

describe('shareWork', () => {
  it('keeps the intervals that were built for the day, and those are what working out gives', async () => {
    const store = await bookWith([1, 2, 3]);
    const { done, left } = share(await takeMachine(store), '2026-11-01T10:00:00');
    expect([done.length, left.length, done[0]!.asOf]).toEqual([1, 0, 3]);
    await store.workOut(done);
    const shared = await workedOut(store);
    expect(shared.intervals.map(({ sold }) => sold)).toEqual([10, 10]);
    expect(await store.staleMachines()).toEqual([]);
    await store.forgetIntervals();
    await workOutStale(store, { take: { roster: ROSTER } });
    expect(await workedOut(store)).toEqual(shared);
  });

  it('passes over machines that are not to be worked out', async () => {
    const machine = await takeMachine(await bookWith([1, 2]));
    expect(shareWork([machine], { intervals: [], findings: [], machines: new Map() }, new Map())).toEqual({
      done: [],
      left: [],
    });
  });

  it.each<[string, Partial<TakenMachine>, string | null]>([
    ['the change may be anywhere', {}, null],
    ['reads between were left out', { isComplete: false }, '2026-11-03T10:00:00'],
    ['the change may lie before the reads', { isFromStart: false }, '2026-11-01T10:00:00'],
    ['no read has its place', { isFromStart: false }, '2026-11-03T10:00:00'],
  ])('leaves a machine to be worked out by itself where %s', async (_, changes, since) => {
    const { done, left } = share(await takeMachine(await bookWith([1, 2, 3]), changes), since);
    expect([done, left.map(({ machine }) => machine)]).toEqual([[], [KEY]]);
  });

  it('works out what can not be shared before the day is made, and leaves nothing of it', async () => {
    const store = await openBook();
    const take = { roster: ROSTER };
    const day = '2026-11-24';
    await takeNight(store, [...dailyCaptures([1, 2]), ...dailyCaptures([3], { CB1: 'CB1*B2' })], take, day);
    const stale = new Map((await store.staleMachines()).map((each) => [each.machine, each]));
    const told: string[] = [];
    const [part] = await gather(makeDayParts(store, { day, take, stale, onMachine: (key) => told.push(key) }));
    expect(readsOf(part!.inputs)).toHaveLength(3);
    expect(await store.staleMachines()).toEqual([]);
    expect((await workedOut(store)).reads.every(({ era }) => era !== null && era > 0)).toBe(true);
    // Looked at a second time, as its reads are chosen by what was worked out, but told of once.
    expect(told).toEqual([KEY]);
  });
});
