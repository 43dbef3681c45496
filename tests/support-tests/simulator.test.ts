import { crc16 } from 'crc';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { arbitraryRound } from '../support/arbitraries/round.js';
import { textOf } from '../support/build-capture.js';
import type { Truth } from '../support/simulator/index.js';
import { groupOf, numberAt, splitSegments } from './read-elements.js';

const EVERYTHING: HistoryChoice = {
  discounts: true,
  revalues: true,
  unseenResets: true,
  tubeFaults: true,
  billsSettingChanges: true,
  clockChanges: true,
  restarts: ['board-changed', 'memory-cleared', 'other-machine'],
  machine: {
    rollOver: ['none', 'column-count', 'column-value', 'total-count', 'total-value'],
    lifetime: ['kept', 'zero', 'absent'],
    interval: ['kept', 'absent'],
    cashSalesBookedAs: ['CA', 'DA', 'DB'],
    cardPriceLists: true,
  },
};

const pairs = (history: History): readonly number[] => history.reads.slice(1).map((_, index) => index);

describe('simulator: conservation of money', () => {
  // Conservation is also asserted inside, after every single operation.
  it('puts into the bag what left the machine less what was put in by hand', () => {
    const check = (history: History): void => {
      for (const [place, visit] of history.visits.entries()) {
        if (place === 0) continue;
        const { cash, bag, restarts } = history.truthBetween(history.visits[place - 1]!, visit);
        expect(bag).toEqual({ coins: history.reads[visit]!.bag!.coins, bills: history.reads[visit]!.bag!.bills });
        // What lay in another machine's box went away with it.
        if (restarts.includes('other-machine')) continue;
        expect(bag).toEqual({ coins: cash.toCashBox + cash.byHand - cash.filled, bills: cash.bills });
      }
    };
    fc.assert(fc.property(arbitraryHistory({ ...EVERYTHING, tubeFaults: false }), check), { numRuns: 150, seed: 1 });
  });

  it('closes the tubes but for what nobody counted', () => {
    const check = (history: History): void => {
      for (const from of pairs(history)) {
        const { cash, restarts } = history.truthBetween(from, from + 1);
        if (restarts.includes('other-machine')) continue;
        const due = cash.tubesFrom + cash.toTubes - cash.dispensed - cash.byHand + cash.filled;
        expect(cash.tubesTo - due).toBe(cash.tubeDifference);
      }
    };
    fc.assert(fc.property(arbitraryHistory(EVERYTHING), check), { numRuns: 150, seed: 2 });
  });

  it('adds up from interval to interval', () => {
    const check = (history: History): void => {
      const parts = pairs(history).map((from) => history.truthBetween(from, from + 1));
      const whole = history.truthBetween(0, history.reads.length - 1);
      const sum = (pick: (truth: Truth) => number): number => parts.reduce((total, part) => total + pick(part), 0);
      expect(whole.totals.sold).toBe(sum((part) => part.totals.sold));
      expect(whole.totals.value).toBe(sum((part) => part.totals.value));
      expect(whole.cash.cashIn).toBe(sum((part) => part.cash.cashIn));
      for (const { split, sold, value } of whole.columns) {
        expect(split.reduce((total, part) => total + part.count, 0)).toBe(sold);
        expect(split.reduce((total, part) => total + part.count * part.price, 0)).toBe(value);
      }
    };
    fc.assert(fc.property(arbitraryHistory(EVERYTHING), check), { numRuns: 100, seed: 3 });
  });
});

describe('simulator: what its captures say', () => {
  it('carries the CRC, the count and the control numbers', () => {
    const check = (history: History): void => {
      for (const { bytes } of history.reads) {
        const text = textOf(bytes);
        const covered = text.slice(text.indexOf('ST*'), text.indexOf('G85*'));
        // The npm package is the judge; level 5 writes the least significant byte first (manual L0190D, p. 42).
        const [high, low] = crc16(Buffer.from(covered, 'latin1'))
          .toString(16)
          .toUpperCase()
          .padStart(4, '0')
          .match(/../g)!;
        const segments = splitSegments(bytes);
        const level = segments.find(([id]) => id === 'ID1')![7];
        expect(segments.find(([id]) => id === 'G85')![1]).toBe(level === '6' ? `${high}${low}` : `${low}${high}`);
        const inSet = segments.filter(([id]) => id !== 'DXS' && id !== 'DXE');
        expect(numberAt(segments, 'SE', 1)).toBe(inSet.length);
        expect(segments.find(([id]) => id === 'SE')![2]).toBe('0001');
      }
    };
    fc.assert(fc.property(arbitraryHistory(EVERYTHING), check), { numRuns: 100, seed: 4 });
  });

  it('moves every lifetime counter by the truth, modulo its width', () => {
    const check = (history: History): void => {
      for (const from of pairs(history)) expectCountersToMove(history, from);
    };
    const choice = {
      ...EVERYTHING,
      restarts: [],
      billsSettingChanges: false,
      machine: { ...EVERYTHING.machine, lifetime: ['kept'] },
    };
    fc.assert(fc.property(arbitraryHistory(choice as HistoryChoice), check), { numRuns: 200, seed: 5 });
  });

  it('shows interval counters that cover the time since the last reset, seen or not', () => {
    const check = (history: History): void => {
      history.reads.forEach(({ bytes }, index) => {
        const segments = splitSegments(bytes);
        const { totals, cash, columns } = history.truthSinceReset(index);
        expect(numberAt(segments, 'VA1', 4) ?? 0).toBe(totals.sold);
        expect(numberAt(segments, 'CA3', 2) ?? 0).toBe(cash.toCashBox);
        expect(numberAt(segments, 'CA10', 1) ?? 0).toBe(cash.filled);
        for (const { column, value, priceTo } of columns) {
          if (priceTo !== null) expect(numberAt(groupOf(segments, column), 'PA2', 4) ?? 0).toBe(value);
        }
      });
    };
    const choice: HistoryChoice = { ...EVERYTHING, machine: { lifetime: ['kept', 'zero', 'absent'] } };
    fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed: 6 });
  });

  it('shows the sales since a restart, whatever went before', () => {
    const check = (history: History): void => {
      history.reads.forEach(({ bytes, snapshot }, index) => {
        if (snapshot.restarts.length === 0 || snapshot.restarts.at(-1) === 'other-machine') return;
        const segments = splitSegments(bytes);
        const { totals, cash } = history.truthSinceRestart(index);
        expect(numberAt(segments, 'VA1', 2) ?? 0).toBe(totals.sold);
        expect(numberAt(segments, 'VA1', 1) ?? 0).toBe(totals.value);
        expect(numberAt(segments, 'CA3', 6) ?? 0).toBe(cash.toCashBox);
        expect(numberAt(segments, 'CA15', 1)).toBe(cash.tubesTo);
      });
    };
    const restarts = ['board-changed', 'memory-cleared'] as const;
    fc.assert(fc.property(arbitraryHistory({ restarts }), check), { numRuns: 100, seed: 7 });
  });

  it('rolls counters over, so that the property above is put to use', () => {
    for (const rollOver of ['column-count', 'column-value', 'total-count', 'total-value'] as const) {
      const choice = { machine: { rollOver: [rollOver], maxColumns: 1 }, minReads: 2, maxSteps: 40 };
      const histories = fc.sample(arbitraryHistory(choice), { numRuns: 30, seed: 8 });
      const [id, position] = {
        'column-count': ['PA2', 1] as const,
        'column-value': ['PA2', 2] as const,
        'total-count': ['VA1', 2] as const,
        'total-value': ['VA1', 1] as const,
      }[rollOver];
      const rolled = histories.filter(({ reads }) => {
        const values = reads.map(({ bytes }) => numberAt(splitSegments(bytes), id, position) ?? 0);
        return values.some((value, index) => index > 0 && value < values[index - 1]!);
      });
      expect(rolled.length).toBeGreaterThan(5);
    }
  });
});

describe('arbitraryRound', () => {
  it('gives machines with names of their own, and works without coins', () => {
    const choice = { minMachines: 2, machine: { devices: { coins: false, bills: false, card: true } } };
    fc.assert(
      fc.property(arbitraryRound(choice), (round) => {
        const assets = round.map(({ history }) => /ID1\*.*\*(A\d+)\*/.exec(textOf(history.reads[0]!.bytes))![1]);
        expect(assets).toEqual(round.map(({ asset }) => asset));
        expect(new Set(assets).size).toBe(round.length);
        for (const { history } of round) expect(textOf(history.reads.at(-1)!.bytes)).not.toMatch(/^CA/m);
      }),
      { numRuns: 20, seed: 9 },
    );
  });
});

function expectCountersToMove(history: History, from: number): void {
  const { digits, byHandInDispensed, discounts } = history.config.maker;
  const { devices } = history.config;
  const [earlier, later] = [from, from + 1].map((index) => splitSegments(history.reads[index]!.bytes)) as [
    ReturnType<typeof splitSegments>,
    ReturnType<typeof splitSegments>,
  ];
  const truth = history.truthBetween(from, from + 1);
  const { cash, totals } = truth;
  type Segments = typeof earlier;
  const expectMove = (a: Segments, b: Segments, id: string, position: number, due: number, width: number): void => {
    const moved = (numberAt(b, id, position) ?? 0) - (numberAt(a, id, position) ?? 0);
    expect([id, position, (((moved - due) % 10 ** width) + 10 ** width) % 10 ** width]).toEqual([id, position, 0]);
  };
  const total = (id: string, position: number, due: number, width = digits.totalValue): void =>
    expectMove(earlier, later, id, position, due, width);
  total('VA1', 1, totals.value);
  total('VA1', 2, totals.sold, digits.totalCount);
  total('CA2', 1, cash.bookedCashSales);
  total('CA3', 5, cash.cashIn);
  total('CA3', 6, cash.toCashBox);
  total('CA3', 7, cash.toTubes);
  total('CA4', 3, cash.dispensed + (byHandInDispensed ? cash.byHand : 0));
  total('CA4', 4, cash.byHand);
  total('CA8', 2, cash.overpaid);
  total('CA9', 2, cash.exactChange);
  total('CA10', 2, cash.filled);
  total('TA2', 1, cash.tokenSales);
  total('DA4', 1, cash.creditedToCards);
  const booked = history.config.maker.cashSalesBookedAs;
  total('DA2', 1, cash.card1Sales + (booked === 'DA' ? cash.cashSales : 0));
  total('DB2', 1, cash.card2Sales + (booked === 'DB' ? cash.cashSales : 0));
  const asCount = history.config.maker.billsAs === 'count';
  total('CA3', 8, asCount ? cash.billCount : cash.bills, asCount ? digits.totalCount : digits.totalValue);
  if (history.config.maker.billValues) total('CA3', 10, cash.bills);
  if (discounts && devices.coins && booked === 'CA') total('CA7', 2, cash.cashDiscounts);
  for (const column of truth.columns) {
    const [a, b] = [groupOf(earlier, column.column), groupOf(later, column.column)];
    const due = [column.sold, column.value, column.test, column.testValue, column.free, column.freeValue];
    due.forEach((amount, index) => {
      const id = ['PA2', 'PA2', 'PA3', 'PA3', 'PA4', 'PA4'][index]!;
      const isCount = index % 2 === 0;
      expectMove(a, b, id, isCount ? 1 : 2, amount, isCount ? digits.columnCount : digits.columnValue);
    });
    expect([numberAt(a, 'PA1', 2), numberAt(b, 'PA1', 2)]).toEqual([column.priceFrom, column.priceTo]);
  }
}
