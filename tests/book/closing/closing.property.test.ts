import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closeRounds, closingsOf, recordAdjustments, settleBook } from '../../../src/book/closing/index.js';
import { type BookStore, openSqliteBook } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { takeReads } from '../../../src/captures/index.js';
import type { CountRow } from '../../../src/model/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { settleRound } from '../../../src/settlement/index.js';
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
      await closeRounds(store, ask(day, early), KIM);
      if (isAdjustedAtOnce) await adjust();
    }
    for (const read of reads) if (!taken.has(read)) await adjustAfter(() => take(read));
    for (const day of days) {
      await adjustAfter(() => closeRounds(store, ask(day, counts), { ...KIM, reason: 'counted again' }));
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
  for (const { settlement, closing } of rounds) {
    expect(closing).toMatchObject({ closed: { by: 'Kim' }, changes: null });
    sum += orNothing(settlement.totals.overShort.total);
    for (const { overShort } of closing.adjustments) sum += overShort.total!;
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

async function holdCarriedOnce(store: BookStore): Promise<void> {
  const adjustments = (await entriesOf(store, 'adjustment')).map(({ seq }) => seq);
  const carried = (await closingsOf(store)).flatMap(({ body }) => body.carried.map(({ entry }) => entry));
  expect(new Set(carried).size).toBe(carried.length);
  const last = Math.max(...(await entriesOf(store, 'settlement-closed')).map(({ seq }) => seq));
  // All routes here are one: what came before the last closing was carried by then.
  expect([...carried].sort((a, b) => a - b)).toEqual(adjustments.filter((seq) => seq < last));
}
