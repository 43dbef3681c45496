import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changesOf, listChangedDays, makeDayParts, rememberTables, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { type TakeOptions, takeRead } from '../../../src/captures/index.js';
import { buildIntervals, STEP_COUNTERS, type Step } from '../../../src/interval/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../../support/arbitraries/history.js';
import { joinCaptures } from '../../support/build-capture.js';
import { gather, openBook } from '../store/temporary-book.js';
import { dailyCaptures, figuresOf, type NightFile, rosterOf, takeNight, workedOut } from './take-night.js';

/** What a read came as: as it is, torn, or a second time in another wrapping; and on which of some nights. */
interface Arrival {
  readonly night: number;
  readonly isTorn: boolean;
  readonly copyOn: number | null;
  readonly isListed: boolean;
}

const NIGHTS = 6;
const arrival: fc.Arbitrary<Arrival> = fc.record({
  night: fc.nat(NIGHTS - 1),
  isTorn: fc.integer({ min: 0, max: 7 }).map((n) => n === 0),
  copyOn: fc.option(fc.nat(NIGHTS - 1), { freq: 4 }),
  isListed: fc.integer({ min: 0, max: 9 }).map((n) => n > 0),
});

interface Story {
  readonly nights: readonly (readonly NightFile[])[];
  readonly take: TakeOptions;
}

/** A machine's captures as they come in over some nights, late ones and copies among them; most arrive in order. */
function makeStory(history: History, arrivals: readonly Arrival[], isInOrder: boolean): Story {
  const nights: NightFile[][] = Array.from({ length: NIGHTS }, () => []);
  const listed: string[] = [];
  for (const [i, { bytes, snapshot }] of history.reads.entries()) {
    const { night, isTorn, copyOn, isListed } = arrivals[i % arrivals.length]!;
    const name = `${String(i).padStart(3, '0')}.dex`;
    const came = isInOrder ? Math.floor((i * NIGHTS) / history.reads.length) : night;
    nights[came]!.push({ name, bytes: isTorn ? bytes.slice(0, Math.floor(bytes.length * 0.6)) : bytes });
    if (copyOn !== null) nights[copyOn]!.push({ name: `again-${name}`, bytes: joinCaptures(bytes, new Uint8Array(3)) });
    if (isListed) listed.push(`${name},${snapshot.at.slice(0, 16).replace('T', ' ')},service`);
  }
  const { asset, serial } = history.config.identity;
  const roster = rosterOf(
    `machine,asset,serial,currency\nM1,${asset},${serial},EUR\n`,
    ['file,received_at,reason', ...listed].join('\n'),
  );
  return { nights, take: { roster } };
}

const story = (choice: HistoryChoice) =>
  fc
    .record({
      history: arbitraryHistory({ minReads: 5, maxReads: 12, maxSteps: 5, ...choice }),
      arrivals: fc.array(arrival, { minLength: 5, maxLength: 10 }),
      isInOrder: fc.boolean(),
    })
    .map(({ history, arrivals, isInOrder }) => makeStory(history, arrivals, isInOrder));

async function playNights(store: BookStore, { nights, take }: Story): Promise<void> {
  for (const files of nights) {
    await takeNight(store, files, take);
    await workOutStale(store, { take });
  }
}

/** As {@link playNights}, each day made from what is worked out. */
async function playDays(store: BookStore, { nights, take }: Story): Promise<void> {
  for (const [i, files] of nights.entries()) {
    const day = dayOf(i);
    await takeNight(store, files, take, day);
    await workOutStale(store, { take });
    await gather(makeDayParts(store, { day, take }));
  }
}

/** With its keys in one order. */
const sorted = (record: object): unknown => Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1));

/** The day on which a night's files came in. */
const dayOf = (night: number): string => `2026-11-2${night}`;

describe('days made again', () => {
  // What the machine did is cut at its reads, so that no step may be in two days and none in no day.
  const agree = async (played: Story): Promise<void> => {
    const store = await openBook();
    await playDays(store, played);
    const rows: string[] = [];
    for (const [night] of played.nights.entries()) {
      for (const { day } of await gather(makeDayParts(store, { day: dayOf(night), take: played.take }))) {
        rows.push(...day.cash.map(({ from, to, sold, value, toCashBox }) => line(from, to, sold, value, toCashBox)));
      }
    }
    const kept = await figuresOf(store);
    const steps = kept.map(({ step: { fromAt, toAt }, figures: { totals, cash } }) =>
      line(fromAt, toAt, totals.sold, totals.value, cash.toCashBox),
    );
    expect(rows.sort()).toEqual(steps.sort());
    await store.close().catch(() => undefined);
  };
  const line = (...figures: readonly unknown[]): string => JSON.stringify(figures);

  it('add up to the whole, whatever came late or twice', async () => {
    await fc.assert(fc.asyncProperty(story({}), agree), { numRuns: 20, endOnFailure: true });
  });

  it('also where clocks are set, boards changed and memories cleared', async () => {
    const choice: HistoryChoice = { clockChanges: true, restarts: ['board-changed', 'memory-cleared'] };
    await fc.assert(fc.asyncProperty(story(choice), agree), { numRuns: 20, endOnFailure: true });
  });
});

describe('days of which tables were written', () => {
  // The machine's reads come late, twice, torn and with a list; a night's tables are compared with what they would be later.
  const agree = async ({ nights, take }: Story): Promise<void> => {
    const store = await openBook();
    const written = new Map<string, { readonly rows: string; readonly changes: number }>();
    const rowsOf = async (day: string): Promise<string> => {
      const parts = await gather(makeDayParts(store, { day, take }));
      const withoutReplaces = ({ replaces: _, ...row }: { readonly replaces: unknown }): object => row;
      const rows = parts.flatMap((part) => [...part.day.sales, ...part.day.cash].map(withoutReplaces));
      return JSON.stringify(rows.map((row) => JSON.stringify(row)).sort());
    };
    for (const [i, files] of nights.entries()) {
      const day = dayOf(i);
      await takeNight(store, files, take, day);
      await workOutStale(store, { take });
      written.set(day, { rows: await rowsOf(day), changes: await changesOf(store, day) });
      await rememberTables(store, day, day);
      const changed = new Map((await listChangedDays(store)).map((one) => [one.day, one]));
      for (const [told, { rows, changes }] of written) {
        const isCounted = (changed.get(told)?.changes ?? 0) !== changes;
        if ((await rowsOf(told)) !== rows) expect([told, isCounted]).toEqual([told, true]);
        if (changed.has(told)) expect(changed.get(told)!.folders).toEqual([told]);
      }
    }
    await store.close().catch(() => undefined);
  };

  it('are counted as changed whenever these would come out otherwise', async () => {
    await fc.assert(fc.asyncProperty(story({}), agree), { numRuns: 20, endOnFailure: true });
  });

  it('also where clocks are set, boards changed and memories cleared', async () => {
    const choice: HistoryChoice = { clockChanges: true, restarts: ['board-changed', 'memory-cleared'] };
    await fc.assert(fc.asyncProperty(story(choice), agree), { numRuns: 20, endOnFailure: true });
  });

  it('are not where nights come in order', async () => {
    const store = await openBook();
    const take = { roster: rosterOf('machine,asset,currency\nM1,A1,EUR\n') };
    for (const day of [1, 2, 3, 4, 5]) {
      const date = `2026-11-0${day}`;
      await takeNight(store, dailyCaptures([day]), take, date);
      await workOutStale(store, { take });
      await rememberTables(store, date, date);
    }
    expect(await listChangedDays(store)).toEqual([]);
  });
});

describe('working out night by night', () => {
  const agree = async (played: Story, play = playNights): Promise<void> => {
    const store = await openBook();
    await play(store, played);
    const byNight = await workedOut(store);
    expect(await store.staleMachines()).toEqual([]);
    await store.forgetSteps();
    await workOutStale(store, { take: played.take });
    expect(await workedOut(store)).toEqual(byNight);
    await store.close().catch(() => undefined);
  };

  it('gives what working everything out anew gives, whatever came late or twice', async () => {
    await fc.assert(
      fc.asyncProperty(story({}), (played) => agree(played)),
      { numRuns: 25 },
    );
  });

  it('also where clocks are set, boards changed and memories cleared', async () => {
    const choice: HistoryChoice = { clockChanges: true, restarts: ['board-changed', 'memory-cleared'] };
    await fc.assert(
      fc.asyncProperty(story(choice), (played) => agree(played)),
      { numRuns: 25 },
    );
  });

  it('also where it is done beside making the days', async () => {
    const agreeByDays = (played: Story): Promise<void> => agree(played, playDays);
    await fc.assert(fc.asyncProperty(story({}), agreeByDays), { numRuns: 15 });
    const choice: HistoryChoice = { clockChanges: true, restarts: ['board-changed', 'memory-cleared'] };
    await fc.assert(fc.asyncProperty(story(choice), agreeByDays), { numRuns: 15 });
  });

  it('gives the steps that the files themselves give', async () => {
    await fc.assert(
      fc.asyncProperty(story({}), async (played) => {
        const store = await openBook();
        await playNights(store, played);
        const files = played.nights.flat();
        const reads = files.flatMap(({ name, bytes }) =>
          readCaptures(bytes).reads.map((read) => takeRead(name, read, played.take)),
        );
        const direct = buildIntervals(reads, played.take.roster).intervals;
        const lines = (all: readonly Pick<Step, 'totals' | 'cash' | 'columns' | 'differences'>[]): string[] =>
          all
            .map(({ totals, cash, differences, columns }) => {
              const moved = STEP_COUNTERS.map((key) => differences[key].value);
              return JSON.stringify([totals, sorted(cash), moved, columns.map(({ column, sold }) => [column, sold])]);
            })
            .sort();
        const kept = (await figuresOf(store)).map(({ figures }) => figures);
        expect(lines(kept)).toEqual(lines(direct));
      }),
      { numRuns: 12 },
    );
  });
});
