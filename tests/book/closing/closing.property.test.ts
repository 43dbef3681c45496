import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadHistories } from '../../../src/book/closing/book-counts.js';
import {
  type BookRequest,
  closeRounds,
  listOpenParts,
  recordAdjustments,
  settleBook,
} from '../../../src/book/closing/index.js';
import { type BookStore, openSqliteBook } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { takeReads } from '../../../src/captures/index.js';
import type { CountRow } from '../../../src/model/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { type Settlement, settleRound } from '../../../src/settlement/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { countBag, playRound, type RoundRead, takeRound } from '../../settlement/play-round.js';
import { arbitraryRound, type RoundChoice, type RoundMachine } from '../../support/arbitraries/round.js';
import { EUR } from '../../support/simulator/index.js';
import { temporaryPath } from '../store/temporary-book.js';
import { entriesOf, KIM, sheetOf, takeIn } from './fill-book.js';

const PLAIN: RoundChoice = {
  minReads: 3,
  maxReads: 6,
  maxMachines: 3,
  machine: { money: [EUR], minPastVends: 20 },
};
/** Rounds are closed whatever is in the way: what comes later has to adjust them. */
const ANYWAY = { anyway: 'the office closes' };

/** Everything that can come between two collections. */
const EVERYTHING: RoundChoice = {
  minReads: 3,
  maxReads: 8,
  maxMachines: 2,
  discounts: true,
  revalues: true,
  unseenResets: true,
  billsSettingChanges: true,
  clockChanges: true,
  restarts: ['board-changed', 'memory-cleared', 'other-machine'],
  machine: { money: [EUR], interval: ['kept', 'absent'], cashSalesBookedAs: ['CA', 'DA', 'DB'] },
};
/** What happens to each read and bag in turn: comes in time, comes late, is counted wrong and corrected later. */
const FATES = fc.array(fc.constantFrom('in time', 'in time', 'late', 'wrong'), { minLength: 30, maxLength: 30 });

describe('closings of simulated rounds, whose facts come early and late', () => {
  it.each([
    ['plain', PLAIN],
    ['with everything that can come between', EVERYTHING],
  ])(
    'and their adjustments add up to what all facts give, and each is carried once: %s',
    async (_, choice) => {
      const property = fc.asyncProperty(arbitraryRound(choice), FATES, FATES, fc.boolean(), holdAgainstAll);
      await fc.assert(property, { numRuns: 6, seed: 77 });
    },
    120_000,
  );
});

async function holdAgainstAll(
  machines: readonly RoundMachine[],
  fatesOfReads: readonly string[],
  fatesOfBags: readonly string[],
  isAdjustedAtOnce: boolean,
): Promise<void> {
  const { reads, bags } = playRound(machines);
  const { roster } = takeRound(machines, reads);
  // The office knows the machines; what a list said of captures is known to the book alone.
  const office = new Roster({ machines: roster.books.machines });
  const counts = bags.map((bag, i) => countBag(bag, i + 2));
  const wrong = bags.map((bag, i) =>
    countBag(bag, i + 2, fatesOfBags[i] === 'wrong' ? { coins: -35, bills: 0 } : undefined),
  );
  const isLate = (i: number): boolean => fatesOfReads[i] === 'late';
  const days = [...new Set(counts.map(({ visitedAt }) => visitedAt.date))].sort();
  const store = await openSqliteBook(temporaryPath(), { create: true });
  const ask = (day: string, rows: readonly CountRow[]) => ({ day, roster: office, sheet: sheetOf(rows, office) });
  const take = ({ file, bytes }: RoundRead) => takeIn(store, file, bytes, { roster });
  const adjust = (since = 0) => recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster: office, since });
  /** Do something, and adjust by what came of it alone. */
  const adjustAfter = async (work: () => Promise<unknown>): Promise<void> => {
    const { size } = await store.head();
    await work();
    if (isAdjustedAtOnce) await adjust(size);
  };
  try {
    const taken = new Set<RoundRead>();
    for (const day of days) {
      for (const [i, read] of reads.entries()) {
        if (taken.has(read) || isLate(i) || read.at.slice(0, 10) > day) continue;
        taken.add(read);
        await take(read);
      }
      const early = wrong.filter(({ visitedAt }, i) => visitedAt.date === day && fatesOfBags[i] !== 'late');
      await closeRounds(store, ask(day, early), KIM, ANYWAY);
      if (isAdjustedAtOnce) await adjust();
    }
    for (const read of reads) if (!taken.has(read)) await adjustAfter(() => take(read));
    for (const day of days) {
      const ofDay = counts.filter(({ visitedAt }) => visitedAt.date === day);
      await adjustAfter(() => closeRounds(store, ask(day, ofDay), KIM, ANYWAY));
      await adjustAfter(() => closeRounds(store, ask(day, ofDay), { ...KIM, reason: 'counted again' }, ANYWAY));
    }
    if (!isAdjustedAtOnce) await adjust();
    expect(await adjust()).toEqual([]);
    const truth = takeReadsOf(reads, roster);
    for (const day of days) expect(await sumOf(store, day, office)).toEqual(sumAnew(truth, counts, roster, day));
    await holdCarriedOnce(store);
    expect((await verifyBook(store)).fault).toBeNull();
  } finally {
    await store.close();
  }
}

const takeReadsOf = (reads: readonly RoundRead[], roster: Roster) =>
  reads.flatMap(({ file, bytes }) => takeReads(file, readCaptures(bytes).reads, { roster }));

const orNothing = (amount: number | null): number => amount ?? 0;

/** Over/short of a day by what was closed and adjusted; nothing settled adds nothing. */
async function sumOf(store: BookStore, day: string, roster: Roster): Promise<number> {
  const { rounds } = await settleBook(store, { day, roster });
  let sum = 0;
  for (const { settlement, inBook } of rounds) {
    expect(inBook).toMatchObject({ closing: { by: 'Kim' }, pending: [] });
    let own = orNothing(inBook.asClosed!.overShort.total);
    for (const { overShort, byDriver } of inBook.adjustments) {
      own += overShort;
      expect(byDriver.reduce((total, part) => total + part.overShort, 0)).toBe(overShort);
    }
    expect(own).toBe(orNothing(settlement.totals.overShort.total));
    sum += own;
  }
  return sum;
}

/** The same worked out from everything at once, without a book. */
function sumAnew(
  reads: ReturnType<typeof takeReadsOf>,
  counts: readonly CountRow[],
  roster: Roster,
  day: string,
): number {
  const { settlements } = settleRound({ reads, counts, roster }, { day });
  return settlements.reduce((sum, { totals }) => sum + orNothing(totals.overShort.total), 0);
}

/** Every driver's part of every adjustment is taken over once, or listed as open. */
async function holdCarriedOnce(store: BookStore): Promise<void> {
  const parts = new Map<string, number>();
  for (const { seq, body } of await entriesOf(store, 'adjustment')) {
    const { byDriver } = JSON.parse(body) as { byDriver: { driver: string | null; overShort: number }[] };
    for (const { driver, overShort } of byDriver) parts.set(`${seq} ${driver}`, overShort);
  }
  const carried = (await entriesOf(store, 'adjustment-carried')).map(({ refersTo, body }) => {
    const { driver, overShort } = JSON.parse(body) as { driver: string | null; overShort: number };
    return [`${refersTo} ${driver}`, overShort] as const;
  });
  const open = (await listOpenParts(store)).map(
    (part) => [`${part.adjustment} ${part.driver}`, part.overShort] as const,
  );
  expect([...carried, ...open].sort()).toEqual([...parts].sort());
}

/** What every driver answers for over all days: in closings with what they took over, and in what is still open. */
async function answeredFor(store: BookStore, days: readonly string[], roster: Roster): Promise<Map<string, number>> {
  const sums = new Map<string, number>();
  const add = (driver: string | null, amount: number): void => {
    if (amount !== 0) sums.set(`${driver}`, (sums.get(`${driver}`) ?? 0) + amount);
  };
  for (const day of days) {
    for (const { inBook } of (await settleBook(store, { day, roster })).rounds) {
      for (const { driver, asClosed, carried } of inBook.drivers) {
        add(driver, orNothing(asClosed?.overShort.total ?? null));
        for (const { overShort } of carried) add(driver, overShort);
      }
    }
  }
  for (const { driver, overShort } of await listOpenParts(store)) add(driver, overShort);
  return new Map([...sums].filter(([, amount]) => amount !== 0));
}

const STEPS = [
  'take',
  'take',
  'enter',
  'enter',
  'amount',
  'driver',
  'route',
  'day',
  'swap',
  'withdraw',
  'restore',
  'close',
  'close',
  'adjust',
] as const;
const HISTORY = fc.array(
  fc.record({ step: fc.constantFrom(...STEPS), i: fc.nat(30), j: fc.nat(30), value: fc.nat(3) }),
  { minLength: 12, maxLength: 40 },
);

describe('random histories of counts, corrections, swaps, withdrawals, late captures and closings', () => {
  it('come out as if all had been known at once, round by round and driver by driver', async () => {
    const property = fc.asyncProperty(arbitraryRound({ ...PLAIN, minMachines: 2 }), HISTORY, holdHistory);
    await fc.assert(property, { numRuns: 8, seed: 1864 });
  }, 240_000);
});

async function holdHistory(
  machines: readonly RoundMachine[],
  steps: readonly { step: (typeof STEPS)[number]; i: number; j: number; value: number }[],
): Promise<void> {
  const { reads, bags } = playRound(machines);
  if (bags.length === 0) return;
  const { roster } = takeRound(machines, reads);
  const office = new Roster({ machines: roster.books.machines });
  const days = [...new Set(bags.map(({ at }) => at.slice(0, 10)))].sort();
  const store = await openSqliteBook(temporaryPath(), { create: true });
  /** What the office says now, by label. */
  const rows = new Map<string, CountRow>();
  /** What it said of bags that it took out, by label. */
  const out = new Map<string, CountRow>();
  const entryOf = async (bag: string): Promise<number> =>
    (await loadHistories(store)).find(({ body }) => body?.bag === bag)!.entry;
  const record = async (said: readonly CountRow[], more: Partial<BookRequest> = {}, reason: string | null = null) => {
    const request = { day: days[0]!, roster: office, sheet: sheetOf(said, office), ...more };
    const recorded = await closeRounds(store, request, { ...KIM, reason }, { isClosing: false, isCorrection: false });
    expect(recorded.refusals).toEqual([]);
  };
  const correct = async (...said: readonly CountRow[]): Promise<void> => {
    const numbered = await Promise.all(said.map(async (row) => ({ ...row, corrects: await entryOf(row.bag!) })));
    await record(numbered, {}, 'put right');
    for (const row of said) rows.set(row.bag!, { ...row, corrects: null });
  };
  const closeDay = (day: string) => closeRounds(store, { day, roster: office }, KIM, ANYWAY);
  const pick = <T>(list: readonly T[], place: number): T | undefined => list[place % Math.max(list.length, 1)];
  const left = [...reads];
  const takeNext = async (place: number): Promise<void> => {
    const read = pick(left, place);
    if (read === undefined) return;
    left.splice(left.indexOf(read), 1);
    await takeIn(store, read.file, read.bytes, { roster });
  };
  const steer: Record<(typeof STEPS)[number], (i: number, j: number, value: number) => Promise<unknown>> = {
    take: (i) => takeNext(i % 2 === 0 ? 0 : i),
    async enter(i) {
      const bag = pick(bags, i)!;
      if (rows.has(bag.bag) || out.has(bag.bag)) return;
      const row = countBag(bag, i + 2);
      await record([row]);
      rows.set(bag.bag, row);
    },
    async amount(i, _, value) {
      const row = pick([...rows.values()], i);
      if (row !== undefined) await correct({ ...row, coins: row.coins! + 5 * (value + 1) });
    },
    async driver(i, _, value) {
      const row = pick([...rows.values()], i);
      if (row !== undefined) await correct({ ...row, driver: `D${value}` });
    },
    async route(i, _, value) {
      const row = pick([...rows.values()], i);
      if (row !== undefined) await correct({ ...row, route: `R${(value % 2) + 1}` });
    },
    async day(i, j) {
      const row = pick([...rows.values()], i);
      if (row !== undefined) await correct({ ...row, visitedAt: { ...row.visitedAt, date: pick(days, j)! } });
    },
    async swap(i, j) {
      const all = [...rows.values()];
      const [a, b] = [pick(all, i), pick(all, j)];
      if (a === undefined || b === undefined || a === b) return;
      await correct({ ...a, machine: b.machine }, { ...b, machine: a.machine });
    },
    async withdraw(i) {
      const row = pick([...rows.values()], i);
      if (row === undefined) return;
      await record([], { sheet: null, withdraw: await entryOf(row.bag!) }, 'no bag');
      rows.delete(row.bag!);
      out.set(row.bag!, row);
    },
    async restore(i) {
      const row = pick([...out.values()], i);
      if (row === undefined) return;
      await correct(row);
      out.delete(row.bag!);
    },
    close: (i) => closeDay(pick(days, i)!),
    adjust: () => recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster: office }),
  };
  try {
    for (const { step, i, j, value } of steps) await steer[step](i, j, value);
    while (left.length > 0) await takeNext(0);
    for (const day of [...days, ...days]) await closeDay(day);
    const truth = takeReadsOf(reads, roster);
    const now = [...rows.values()].map((row, place) => ({ ...row, place: { file: 'counts.csv', row: place + 2 } }));
    const whole = new Map<string, number>();
    for (const day of days) {
      const { settlements } = settleRound({ reads: truth, counts: now, roster }, { day });
      const { rounds } = await settleBook(store, { day, roster: office });
      expect(driversOf(rounds.map(({ settlement }) => settlement))).toEqual(driversOf(settlements));
      for (const { drivers } of settlements) {
        for (const { driver, totals } of drivers) {
          whole.set(`${driver}`, (whole.get(`${driver}`) ?? 0) + orNothing(totals.overShort.total));
        }
      }
      expect(await sumOf(store, day, office)).toBe(sumAnew(truth, now, roster, day));
    }
    expect(await answeredFor(store, days, office)).toEqual(new Map([...whole].filter(([, amount]) => amount !== 0)));
    await holdCarriedOnce(store);
    expect((await verifyBook(store)).fault).toBeNull();
  } finally {
    await store.close();
  }
}

/** Over/short by route and driver, where it is not 0. */
function driversOf(settlements: readonly Settlement[]): string[] {
  return settlements
    .flatMap(({ route, drivers }) =>
      drivers.map(({ driver, totals }) => [route, driver, orNothing(totals.overShort.total)] as const),
    )
    .filter(([, , amount]) => amount !== 0)
    .map(String)
    .sort();
}
