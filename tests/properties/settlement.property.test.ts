import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, type CountRow } from '../../src/model/index.js';
import {
  isSettled,
  type Settlement,
  type SettlementTotals,
  settleRound,
  type Visit,
} from '../../src/settlement/index.js';
import { countBag, playRound, type RoundBag, type RoundRead, takeRound } from '../settlement/play-round.js';
import { makeCount } from '../settlement/scenario.js';
import { arbitraryRound, type RoundChoice, type RoundMachine } from '../support/arbitraries/round.js';
import { EUR, JPY, USD } from '../support/simulator/index.js';

// What the counters can tell: nothing is lost from tubes or filled without being entered, and nothing starts again.
// A machine in service has a past: where zero segments are left out, one that never took cash shows none.
const PLAIN: RoundChoice = { minReads: 2, maxReads: 8, machine: { money: [EUR], minPastVends: 20 } };
// Machines that write every segment: a counter absent at one end and there at the other is not known.
const WRITTEN: RoundChoice = { ...PLAIN, machine: { ...PLAIN.machine, maker: { zeroSegments: 'written' } } };
// Everything that can come between, but for fills that nobody entered: no counter knows of those.
const EVERYTHING: RoundChoice = {
  minReads: 2,
  maxReads: 7,
  discounts: true,
  revalues: true,
  unseenResets: true,
  billsSettingChanges: true,
  clockChanges: true,
  restarts: ['board-changed', 'memory-cleared', 'other-machine'],
  machine: {
    money: [EUR],
    rollOver: ['none', 'column-count', 'column-value', 'total-count', 'total-value'],
    interval: ['kept', 'absent'],
    cashSalesBookedAs: ['CA', 'DA', 'DB'],
    cardPriceLists: true,
  },
};

// Machines without lifetime counters fall back on those since the last reset. A memory cleared while those stand near zero
// leaves no trace.
const FALLBACK: RoundChoice = {
  ...EVERYTHING,
  restarts: ['board-changed', 'other-machine'],
  machine: { ...EVERYTHING.machine, lifetime: ['kept', 'zero', 'absent'], interval: ['kept'] },
};

type Wrong = { coins: number; bills: number };
const wrong = fc
  .record({ coins: fc.integer({ min: -5, max: 5 }), bills: fc.integer({ min: -2, max: 2 }) })
  .map(({ coins, bills }): Wrong => ({ coins: coins * 5, bills: bills * 500 }));
const wrongs = fc.array(wrong, { minLength: 40, maxLength: 40 });

const settleBags = (
  machines: readonly RoundMachine[],
  reads: readonly RoundRead[],
  counts: readonly CountRow[],
  options = {},
): readonly Settlement[] => settleRound({ ...takeRound(machines, reads), counts }, options).settlements;

const visitsOf = (settlements: readonly Settlement[]): readonly Visit[] => settlements.flatMap(({ visits }) => visits);

/** Rows of the count sheet, each with its own error. */
const countAll = (bags: readonly RoundBag[], errors: readonly Wrong[]): CountRow[] =>
  bags.map((bag, i) => countBag(bag, i + 2, errors[i % errors.length]));

const errorOf = (bags: readonly RoundBag[], errors: readonly Wrong[], bag: string | null): Wrong =>
  errors[bags.findIndex((one) => one.bag === bag) % errors.length]!;

const visitOf = (visits: readonly Visit[], { machine, bag }: RoundBag): Visit =>
  visits.find((visit) => visit.machine === machine && visit.bag === bag)!;

const totalOf = (errors: readonly Wrong[]): number => errors.reduce((sum, { coins, bills }) => sum + coins + bills, 0);

/** The figures of totals, or of a visit, as a list that can be added up. Null, on a visit, is a kind not there to be counted. */
type Sums = readonly (number | null)[];
const sumsOf = ({ expected, counted, overShort, sold, value, cardSales }: SettlementTotals): Sums => [
  ...[expected.coins, expected.bills, counted.coins, counted.bills],
  ...[overShort.coins, overShort.bills, overShort.total, sold, value, cardSales],
];
const sumsOfVisit = ({ expected, counted, overShort, sales }: Visit): Sums => [
  ...[expected.coins, expected.bills, counted.coins, counted.bills],
  ...[overShort.coins, overShort.bills, overShort.total, sales.sold, sales.value, sales.cardSales],
];
const addUp = (list: readonly Sums[]): Sums => list[0]!.map((_, i) => add(...list.map((sums) => sums[i]!)));

/** What a settlement says, without the reads it rests on. */
const outline = (settlements: readonly Settlement[]): unknown =>
  settlements.map(({ visits, ...rest }) => ({
    ...rest,
    visits: visits.map(({ interval: _, expectedFrom: __, ...visit }) => visit),
  }));

/** One digit within what the integrity value covers made another: a change of few bits is always caught (mathematics of CRC-16). */
function changeByte(bytes: Uint8Array): Uint8Array {
  const changed = bytes.slice();
  const at = changed.findIndex((byte, i) => byte === 0x2a && changed[i + 1]! >= 0x30 && i > bytes.indexOf(0x35));
  changed[at + 1] = changed[at + 1]! ^ 1;
  return changed;
}

describe('settlement of simulated rounds, whose bags are known piece by piece', () => {
  it('expects what lies in the bag, and finds exactly what was put wrong', () => {
    const check = (machines: readonly RoundMachine[], errors: readonly Wrong[]): void => {
      const { reads, bags } = playRound(machines);
      const visits = visitsOf(settleBags(machines, reads, countAll(bags, errors)));
      expect(visits).toHaveLength(bags.length);
      for (const bag of bags) {
        const visit = visitOf(visits, bag);
        const error = errorOf(bags, errors, bag.bag);
        const total = error.coins + error.bills;
        expect(visit.expected).toEqual({ coins: bag.coins, bills: bag.bills });
        expect(visit.overShort).toEqual({ ...error, total });
        expect(visit.state).toBe(total === 0 ? 'agreed' : total > 0 ? 'over' : 'short');
      }
    };
    fc.assert(fc.property(arbitraryRound(PLAIN), wrongs, check), { numRuns: 60, seed: 101 });
  });

  it.each([
    ['lifetime counters', EVERYTHING, 102],
    ['interval counters too', FALLBACK, 103],
  ] as const)(
    'settles no visit on another sum than what lay in the bag, whatever came between: %s',
    (_, choice, seed) => {
      let settled = 0;
      let all = 0;
      const check = (machines: readonly RoundMachine[]): void => {
        const { reads, bags } = playRound(machines);
        const visits = visitsOf(settleBags(machines, reads, countAll(bags, [{ coins: 0, bills: 0 }])));
        for (const bag of bags) {
          const visit = visitOf(visits, bag);
          // Counters that start again while they are still near zero leave no trace.
          if (bag.history.truthBetween(0, bag.history.reads.length - 1).restarts.length > 1) continue;
          all++;
          if (!isSettled(visit)) continue;
          settled++;
          expect(visit.expected).toEqual({ coins: bag.coins, bills: bag.bills });
          expect(visit.state).toBe('agreed');
        }
      };
      fc.assert(fc.property(arbitraryRound(choice), check), { numRuns: 100, seed });
      // Not for want of trying.
      expect(settled / all).toBeGreaterThan(0.1);
    },
  );

  it('settles machines without lifetime counters by what their profile says of resets', () => {
    const check = (machines: readonly RoundMachine[], errors: readonly Wrong[]): void => {
      const { reads, bags } = playRound(machines);
      const profiles = [{ name: 'P', resets: 'service-read' as const }];
      const given = takeRound(machines, reads, { profiles, machine: { profile: 'P' } });
      const { settlements } = settleRound({ ...given, counts: countAll(bags, errors) });
      for (const bag of bags) {
        const { overShort, expected } = visitOf(visitsOf(settlements), bag);
        expect(expected).toEqual({ coins: bag.coins, bills: bag.bills });
        expect(overShort).toMatchObject(errorOf(bags, errors, bag.bag));
      }
    };
    const maker = { zeroSegments: 'written', resetMode: 'service-read', billsAs: 'value' } as const;
    const choice: RoundChoice = { ...PLAIN, machine: { money: [EUR], lifetime: ['zero', 'absent'], maker } };
    fc.assert(fc.property(arbitraryRound(choice), wrongs, check), { numRuns: 40, seed: 112 });
  });

  it('sums to the cent: visits to the round, drivers to the round, kinds to the total', () => {
    const check = (machines: readonly RoundMachine[], errors: readonly Wrong[]): void => {
      const { reads, bags } = playRound(machines);
      // One row in three is kept back, so that there are uncounted visits as well.
      const rows = countAll(bags, errors).filter((_, i) => i % 3 !== 2);
      for (const { visits, totals, drivers } of settleBags(machines, reads, rows)) {
        const settled = visits.filter(isSettled);
        expect(totals.settledVisits).toBe(settled.length);
        if (settled.length > 0) expect(sumsOf(totals)).toEqual(addUp(settled.map(sumsOfVisit)));
        const own = drivers.map((driver) => driver.totals).filter(({ settledVisits }) => settledVisits > 0);
        expect(own.reduce((sum, { settledVisits }) => sum + settledVisits, 0)).toBe(settled.length);
        if (own.length > 0) expect(sumsOf(totals)).toEqual(addUp(own.map(sumsOf)));
        if (settled.length > 0) {
          const { expected, counted, overShort } = totals;
          expect(counted.coins! - expected.coins!).toBe(overShort.coins);
          expect(counted.bills! - expected.bills!).toBe(overShort.bills);
          expect(overShort.coins! + overShort.bills!).toBe(overShort.total);
        }
      }
    };
    fc.assert(fc.property(arbitraryRound(PLAIN), wrongs, check), { numRuns: 40, seed: 104 });
  });

  it('sums what was truly sold', () => {
    const check = (machines: readonly RoundMachine[]): void => {
      const { reads, bags } = playRound(machines);
      const settlements = settleBags(machines, reads, countAll(bags, [{ coins: 0, bills: 0 }]));
      for (const bag of bags) {
        const { sales } = visitOf(visitsOf(settlements), bag);
        const opening = bag.history.visits[bag.history.visits.indexOf(bag.index) - 1]!;
        const { totals, cash } = bag.history.truthBetween(opening, bag.index);
        expect(sales).toMatchObject({ sold: totals.sold, value: totals.value, cardSales: cash.cardSales });
      }
    };
    fc.assert(fc.property(arbitraryRound(WRITTEN), check), { numRuns: 40, seed: 105 });
  });

  it('gives the same for reads and rows in any order, and with reads that come twice', () => {
    const check = (machines: readonly RoundMachine[], errors: readonly Wrong[], order: readonly number[]): void => {
      const { reads, bags } = playRound(machines);
      const rows = countAll(bags, errors);
      const twice = [...reads, ...reads.map((read) => ({ ...read, file: `z-again-${read.file}` }))];
      const shuffle = <T>(list: readonly T[]): T[] =>
        list
          .map((each, i) => ({ each, key: order[i % order.length]! }))
          .sort((a, b) => a.key - b.key)
          .map(({ each }) => each);
      const plain = outline(settleBags(machines, reads, rows));
      expect(outline(settleBags(machines, shuffle(reads), shuffle(rows)))).toEqual(plain);
      expect(outline(settleBags(machines, shuffle(twice), shuffle(rows)))).toEqual(plain);
    };
    const order = fc.array(fc.nat(1000), { minLength: 7, maxLength: 7 });
    fc.assert(fc.property(arbitraryRound(EVERYTHING), wrongs, order, check), { numRuns: 40, seed: 106 });
  });

  it.each([
    ['lost', 'unread', 107],
    ['damaged', 'unsettled', 108],
  ] as const)('settles a bag whose capture was %s on the next visit, exactly and once', (what, state, seed) => {
    let joint = 0;
    const check = (machines: readonly RoundMachine[], errors: readonly Wrong[], pick: number): void => {
      const { reads, bags } = playRound(machines);
      if (bags.length === 0) return;
      const harmed = bags[pick % bags.length]!;
      const isHarmed = (read: RoundRead): boolean => read.machine === harmed.machine && read.index === harmed.index;
      const left =
        what === 'lost'
          ? reads.filter((read) => !isHarmed(read))
          : reads.map((read) => (isHarmed(read) ? { ...read, bytes: changeByte(read.bytes) } : read));
      const settlements = settleBags(machines, left, countAll(bags, errors));
      const visits = visitsOf(settlements);
      const early = visitOf(visits, harmed);
      expect(early).toMatchObject({ state, overShort: { coins: null, bills: null, total: null } });
      expect(early.expectedIsFloor).toBe(early.expected.coins !== null);
      const later = bags[bags.indexOf(harmed) + 1];
      const all = settlements.reduce((sum, { totals }) => sum + (totals.overShort.total ?? 0), 0);
      const inSums = bags.filter((bag) => bag !== harmed || later?.machine === harmed.machine);
      expect(all).toBe(totalOf(inSums.map((bag) => errorOf(bags, errors, bag.bag))));
      if (later?.machine !== harmed.machine) return;
      joint++;
      const visit = visitOf(visits, later);
      const [first, second] = [errorOf(bags, errors, harmed.bag), errorOf(bags, errors, later.bag)];
      expect(visit.findings.map(({ code }) => code)).toContain('joint-bags');
      expect(visit.expected).toEqual({ coins: harmed.coins + later.coins, bills: harmed.bills + later.bills });
      expect(visit.overShort).toMatchObject({ coins: first.coins + second.coins, bills: first.bills + second.bills });
      expect(visit.jointBags).toHaveLength(2);
    };
    fc.assert(fc.property(arbitraryRound(WRITTEN), wrongs, fc.nat(100), check), { numRuns: 60, seed });
    expect(joint).toBeGreaterThan(10);
  });

  it('knows no more than a floor of a bag without capture, where nothing is moved by hand', () => {
    const check = (machines: readonly RoundMachine[]): void => {
      const { reads, bags } = playRound(machines);
      const unread = new Set(bags.map(({ machine, index }) => `${machine} ${index}`));
      const left = reads.filter(({ machine, index }) => !unread.has(`${machine} ${index}`));
      const visits = visitsOf(settleBags(machines, left, countAll(bags, [{ coins: 0, bills: 0 }])));
      let before = 0;
      let machine = '';
      for (const bag of bags) {
        // What was in the bags before, whose captures are not there either, is in the floor as well.
        if (bag.machine !== machine) before = 0;
        machine = bag.machine;
        before += bag.coins + bag.bills;
        const { expected, state } = visitOf(visits, bag);
        expect(state).toBe('unread');
        if (expected.coins !== null) expect(expected.coins + expected.bills!).toBeLessThanOrEqual(before);
      }
    };
    fc.assert(fc.property(arbitraryRound({ ...PLAIN, handWork: false }), check), { numRuns: 40, seed: 109 });
  });

  it('adds no two currencies', () => {
    const check = (machines: readonly RoundMachine[]): void => {
      const { reads, bags } = playRound(machines);
      for (const { currency, visits, findings } of settleBags(
        machines,
        reads,
        countAll(bags, [{ coins: 0, bills: 0 }]),
      )) {
        expect(new Set(visits.map((visit) => visit.currency))).toEqual(new Set([currency]));
        const sameDay = bags.filter(({ at }) => at.slice(0, 10) === visits[0]!.visitedAt!.slice(0, 10));
        const currencies = new Set(sameDay.map(({ history }) => history.config.money.currency));
        expect(findings.map(({ code }) => code)).toEqual(currencies.size > 1 ? ['mixed-currency'] : []);
      }
    };
    const choice: RoundChoice = { ...PLAIN, minMachines: 2, machine: { ...PLAIN.machine, money: [EUR, USD, JPY] } };
    fc.assert(fc.property(arbitraryRound(choice), check), { numRuns: 40, seed: 110 });
  });

  it('takes any reads with any rows, and loses no row', () => {
    const when = fc.record({
      date: fc.constantFrom('2026-11-01', '2026-11-02', '2026-11-03', '2000-01-01', '2099-12-31'),
      time: fc.option(fc.constantFrom('00:00:00', '08:00:00', '12:00:00', '23:59:59')),
    });
    const amount = fc.option(fc.oneof(fc.nat(5000), fc.constantFrom(0, Number.MAX_SAFE_INTEGER)));
    const name = fc.option(fc.constantFrom('M1/1', 'M1/2', '', '\u001b[2J', '=1+1'));
    const row = fc.record({
      machine: fc.constantFrom('M1', 'M2', 'A101', 'SN100001', '', '__proto__', '\u0000'),
      visitedAt: when,
      bag: name,
      coins: amount,
      bills: amount,
      paidOut: amount,
      filled: amount,
      floatIssued: amount,
      capture: fc.option(fc.constantFrom('M1-1.dex', 'x/M1-2.dex', 'nowhere')),
      driver: name,
      route: name,
    });
    const check = (
      machines: readonly RoundMachine[],
      rows: readonly Partial<CountRow>[],
      harm: readonly boolean[],
    ): void => {
      const reads = playRound(machines).reads.map((read, i) =>
        harm[i % harm.length] ? { ...read, bytes: changeByte(read.bytes) } : read,
      );
      const counts = rows.map((given, i) => ({ ...makeCount('', '2026-11-01', { row: i + 2 }), ...given }) as CountRow);
      const visits = visitsOf(settleBags(machines, reads, counts));
      for (const count of counts) {
        expect(
          visits.filter(({ counts: own, joinedCounts }) => own.includes(count) && !joinedCounts.includes(count)),
        ).toHaveLength(1);
        expect(visits.filter((visit) => isSettled(visit) && visit.counts.includes(count)).length).toBeLessThanOrEqual(
          1,
        );
      }
      for (const { findings } of visits) {
        for (const { message, advice } of findings)
          expect(`${message}${advice ?? ''}`).not.toMatch(/\p{Cc}|undefined|NaN|null/u);
      }
    };
    const harm = fc.array(fc.boolean(), { minLength: 5, maxLength: 5 });
    fc.assert(fc.property(arbitraryRound(EVERYTHING), fc.array(row, { maxLength: 12 }), harm, check), {
      numRuns: 100,
      seed: 111,
    });
  });
});
