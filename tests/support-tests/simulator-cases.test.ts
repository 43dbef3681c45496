import { describe, expect, it } from 'vitest';
import {
  defineColumn,
  defineMachine,
  type MachineGiven,
  SimulatedMachine,
  type SimulatedRead,
  truthBetween,
} from '../support/simulator/index.js';
import { groupOf, numberAt, splitSegments } from './read-elements.js';

const start = (given: MachineGiven = {}): SimulatedMachine => new SimulatedMachine(defineMachine(given));
const at = (read: SimulatedRead, id: string, position: number): number | null =>
  numberAt(splitSegments(read.bytes), id, position);
const has = (read: SimulatedRead, line: string): boolean => read.segments.some((segment) => segment.startsWith(line));

describe('simulator: cash', () => {
  it('puts a 1.00 coin into the box, books a sale of 0.20 and pays 0.80 (SEM 9900X manual, p. 17)', () => {
    const machine = start({
      columns: [defineColumn('1', 20)],
      tubes: [{ value: 20, capacity: 50, coins: 10 }],
    });
    const opening = machine.serviceVisit().read;
    machine.sellForCash('1', { coins: [100] });
    const { read, bag } = machine.serviceVisit();
    const { cash } = truthBetween(opening.snapshot, read.snapshot);
    expect([cash.toCashBox, cash.cashSales, cash.dispensed, bag.coins]).toEqual([100, 20, 80, 100]);
    expect([at(read, 'CA3', 2), at(read, 'CA2', 3), at(read, 'CA4', 1)]).toEqual([100, 20, 80]);
  });

  it('lets coins fall into the box once their tube is full', () => {
    const machine = start({ columns: [defineColumn('1', 50)], tubes: [{ value: 50, capacity: 3, coins: 2 }] });
    machine.sellForCash('1', { coins: [50] });
    machine.sellForCash('1', { coins: [50] });
    const read = machine.read();
    expect([at(read, 'CA3', 1), at(read, 'CA3', 2), at(read, 'CA3', 3), at(read, 'CA15', 1)]).toEqual([
      100, 50, 50, 150,
    ]);
    expect(has(read, 'CA11*50*2*1*1')).toBe(true);
  });

  it('books what empty tubes cannot pay as overpaid (N&W Melodia Classic manual, p. 47)', () => {
    const machine = start({ columns: [defineColumn('1', 150)], tubes: [{ value: 20, capacity: 9, coins: 1 }] });
    machine.sellForCash('1', { coins: [200] });
    const read = machine.read();
    expect([at(read, 'CA4', 1), at(read, 'CA8', 1), at(read, 'CA2', 3)]).toEqual([20, 30, 150]);
  });

  it('hands in the box, the bills and what was paid out by hand, less what was filled', () => {
    const machine = start({ columns: [defineColumn('1', 200)], tubes: [{ value: 100, capacity: 50, coins: 20 }] });
    machine.sellForCash('1', { coins: [200] });
    machine.sellForCash('1', { bills: [500] });
    const { read, bag } = machine.serviceVisit({ payOut: new Map([[100, 5]]), fill: new Map([[100, 2]]) });
    expect(bag).toMatchObject({ coins: 500, bills: 500, box: 200, hand: 300 });
    expect([at(read, 'CA4', 2), at(read, 'CA10', 1), at(read, 'CA15', 1)]).toEqual([500, 200, 1400]);
    expect(machine.serviceVisit().bag).toMatchObject({ coins: 0, bills: 0 });
  });

  it('notices lost coins and fills that nobody entered', () => {
    const machine = start({ tubes: [{ value: 50, capacity: 50, coins: 20 }] });
    const before = machine.snapshot();
    machine.loseFromTubes(new Map([[50, 3]]));
    machine.fillByHand(new Map([[50, 1]]), false);
    expect(truthBetween(before, machine.snapshot()).cash.tubeDifference).toBe(-100);
  });

  it('refuses wrong use', () => {
    const machine = start({ tubes: [{ value: 50, capacity: 5, coins: 5 }] });
    expect(() => machine.sellForCash('11', { coins: [50] })).toThrow(/does not buy/);
    expect(() => machine.sellForCash('99', { coins: [50] })).toThrow(/no column/);
    expect(() => machine.sellByCard('11')).toThrow(/no device DA/);
    expect(() => machine.fillByHand(new Map([[50, 1]]))).toThrow(/no room/);
    expect(() => machine.payOutByHand(new Map([[50, 6]]))).toThrow(/not in the tube/);
    expect(() => truthBetween(machine.read({ at: '2026-11-21T00:00:00' }).snapshot, start().snapshot())).toThrow();
  });
});

describe('simulator: makers', () => {
  it('writes bills as a number where the operator set it so (Crane Autobar Infinity, p. 33)', () => {
    const machine = start({ maker: { billsAs: 'count' } });
    machine.sellForCash('11', { bills: [500] });
    const read = machine.read();
    expect([at(read, 'CA3', 4), at(read, 'CA3', 8), at(read, 'CA3', 9), at(read, 'CA3', 10)]).toEqual([1, 1, 500, 500]);
  });

  it('counts by-hand dispensing in CA403 or not', () => {
    const dispensed = [true, false].map((byHandInDispensed) => {
      const machine = start({ maker: { byHandInDispensed } });
      machine.payOutByHand(new Map([[50, 2]]));
      const read = machine.read();
      return [at(read, 'CA4', 3), at(read, 'CA4', 4)];
    });
    expect(dispensed).toEqual([
      [100, 100],
      [0, 100],
    ]);
  });

  it('leaves zero segments out, all of them or the minor ones (L0118P-SP, p. 62)', () => {
    const ids = (['written', 'minor-left-out', 'left-out'] as const).map((zeroSegments) => {
      const read = start({ maker: { zeroSegments } }).read();
      return ['VA1', 'VA2', 'CA8', 'PA2', 'PA3', 'PA1'].filter((id) => has(read, `${id}*`)).join(' ');
    });
    expect(ids).toEqual(['VA1 VA2 CA8 PA2 PA3 PA1', 'VA1 PA2 PA1', 'PA1']);
  });

  it('books cash sales as card sales where set so (Evoca 9200 manual, p. 87)', () => {
    const machine = start({ maker: { cashSalesBookedAs: 'DA' } });
    machine.sellForCash('11', { coins: [200] });
    const read = machine.read();
    expect([at(read, 'CA3', 5), at(read, 'CA2', 1), at(read, 'DA2', 1)]).toEqual([200, 0, 200]);
  });

  it('keeps no lifetime or no interval counters where the maker has none', () => {
    const sell = (given: MachineGiven): SimulatedRead => {
      const machine = start(given);
      machine.sellForCash('11', { coins: [200] });
      return machine.read();
    };
    expect(sell({ maker: { lifetime: 'zero', discounts: false } }).segments).toContain('VA1*0*0*200*1');
    expect(sell({ maker: { lifetime: 'absent', discounts: false } }).segments).toContain('VA1***200*1');
    expect(sell({ maker: { interval: 'absent', discounts: false } }).segments).toContain('VA1*200*1');
  });

  it('resets on every read, on service reads only, or never, and shows the counters as they stood before', () => {
    const shown = (['every-read', 'service-read', 'never'] as const).map((resetMode) => {
      const machine = start({ maker: { resetMode } });
      return [false, true, false].map((service) => {
        machine.sellForCash('11', { coins: [200] });
        return at(machine.read({ service }), 'VA1', 4);
      });
    });
    expect(shown).toEqual([
      [1, 1, 1],
      [1, 2, 1],
      [1, 2, 3],
    ]);
  });

  it('counts reads and resets as the maker does (L0190D, p. 42; makers differ)', () => {
    const ea3 = (maker: MachineGiven['maker']): (number | null)[] => {
      const machine = start({ maker: maker ?? {} });
      machine.read();
      const read = machine.read({ service: true });
      return [at(read, 'EA3', 1), at(read, 'EA3', 9), at(read, 'EA3', 10)];
    };
    expect(ea3({ ea301: 'resets' })).toEqual([1, 2, 1]);
    expect(ea3({ ea301: 'reads' })).toEqual([2, 2, 1]);
    expect(ea3({ ea301: 'reads', readCountsItself: false })).toEqual([1, 1, 0]);
    expect(ea3({ ea301: 'reading-id', readCounters: false })).toEqual([4006, null, null]);
  });

  it('wraps products in a loop, and lists them by device and price list', () => {
    const machine = start({
      columns: [defineColumn('11', 150, { cardPrice: 160 })],
      devices: { card: true },
      maker: { wrapsProducts: true, priceLists: 'both', zeroSegments: 'left-out' },
    });
    machine.sellForCash('11', { coins: [100, 50] });
    machine.sellByCard('11');
    machine.vendTest('11');
    const read = machine.read();
    expect(read.segments.filter((line) => /^(LS|LE|PA7|LA1)/.test(line))).toEqual([
      'LS*0100',
      'PA7*11*CA*0*150*1*150*1*150',
      'PA7*11*DA*3*160*1*160*1*160',
      'LE*0100',
      'LA1*0*11*150*1*1',
      'LA1*3*11*160*1*1',
      'LA1*5*11*150*1*1',
    ]);
  });

  it('takes paid sales net of discounts, by cash and by card', () => {
    const machine = start({ devices: { card: true } });
    machine.sellForCash('11', { coins: [200] }, 20);
    machine.sellByCard('11', 'DA', 50);
    const segments = splitSegments(machine.read().bytes);
    expect(groupOf(segments, '11')[1]).toEqual('PA2*2*330*2*330*2*70*2*70'.split('*'));
    expect([numberAt(segments, 'CA7', 2), numberAt(segments, 'DA5', 3), numberAt(segments, 'VA1', 5)]).toEqual([
      20, 50, 70,
    ]);
  });
});

describe('simulator: restarts and scars', () => {
  it('begins the counters again on a new board, keeps the tubes, and says who it is', () => {
    const machine = start({ columns: [defineColumn('11', 200, { pastVends: 500 })] });
    expect(at(machine.read(), 'VA1', 1)).toBe(100_000);
    machine.swapBoard('CB599999');
    const read = machine.read();
    expect([at(read, 'VA1', 1), at(read, 'CA15', 1), at(read, 'EA3', 9)]).toEqual([0, 3700, 1]);
    expect(has(read, 'CB1*CB599999')).toBe(true);
    expect(read.snapshot.restarts).toEqual(['board-changed']);
  });

  it('keeps the first date of initialisation through a memory clear on some makers', () => {
    const dates = (['new', 'first'] as const).map((initDateOnClear) => {
      const machine = start({ maker: { initDateOnClear } });
      machine.clearMemory();
      return machine.read().segments.find((line) => line.startsWith('EA4'));
    });
    expect(dates).toEqual(['EA4*261120*0600', 'EA4*240304*0900']);
  });

  it('puts another machine with a past of its own into the place', () => {
    const machine = start();
    machine.sellForCash('11', { coins: [200] });
    const identity = { asset: 'A900', serial: 'SN900001', board: 'CB900001' };
    machine.replaceBy(defineMachine({ identity, columns: [defineColumn('31', 100, { pastVends: 7 })] }));
    const read = machine.read();
    expect(has(read, 'ID1*SN900001*MODEL-A*1.00***A900')).toBe(true);
    expect([at(read, 'VA1', 2), at(read, 'CA15', 1)]).toEqual([7, 3700]);
    expect(machine.collect()).toMatchObject({ coins: 0, bills: 0 });
  });

  it('has a past that adds up, but for a scar where one is asked for', () => {
    const read = start({
      columns: [defineColumn('11', 150, { pastVends: 321, cardPrice: 160 }), defineColumn('12', 90, { pastVends: 77 })],
      devices: { card: true },
      past: { cardPercent: 30, billPercent: 40, changePercent: 25, scar: 1000 },
    }).read();
    const [va1, ca2, da2] = [at(read, 'VA1', 1)!, at(read, 'CA2', 1)!, at(read, 'DA2', 1)!];
    expect(va1).toBe(ca2 + da2 + 1000);
    const [cashIn, box, tubes, bills] = [5, 6, 7, 8].map((position) => at(read, 'CA3', position)!);
    expect(cashIn).toBe(box! + tubes! + bills!);
    expect(cashIn! - at(read, 'CA4', 3)!).toBe(ca2 + 1000);
    expect(at(read, 'CA10', 2)! + tubes! - at(read, 'CA4', 3)!).toBe(at(read, 'CA15', 1));
  });

  it('writes events, outages, sold-outs, clock and price changes with the machine clock', () => {
    const machine = start({ maker: { clockStyle: 'long' } });
    machine.setClock(3600);
    machine.raiseEvent('EAA');
    machine.losePower();
    machine.markSoldOut('11');
    machine.setPrice('11', 210);
    machine.setTemperature(5);
    const read = machine.read();
    for (const line of [
      'ID5*20261120*070000',
      'EA1*EAA*20261120*070000',
      'EA2*EAA*1*1*1',
      'PA5*20261120*070000*1*1',
      'EA5*20261120*070000',
      'EA6*20261120*060000*20261120*070000',
      'EA7*1*1',
      'MA5*TEMP*41*5',
    ]) {
      expect(read.segments).toContain(line);
    }
    expect([read.snapshot.at, read.snapshot.clock]).toEqual(['2026-11-20T06:00:00', '2026-11-20T07:00:00']);
  });
});
