import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeReads } from '../../src/captures/index.js';
import { traceFigure } from '../../src/explain/index.js';
import type { CountRow, MachineRow } from '../../src/model/index.js';
import { readCaptures } from '../../src/read/index.js';
import { type Settlement, settleRound } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { countBag, playRound, takeRound } from '../settlement/play-round.js';
import { makeCount, makeMachine } from '../settlement/scenario.js';
import { arbitraryRound } from '../support/arbitraries/round.js';
import { buildCapture } from '../support/build-capture.js';
import { EUR } from '../support/simulator/index.js';
import { checkTraces } from './check-traces.js';
import { notesOf, partsOf } from './pair-interval.js';

const DAYS = ['2026-11-21', '2026-11-22', '2026-11-23', '2026-11-24'] as const;

/** A machine's captures, one a day at 10:00, each of these segments; all of them service reads unless a day is `null`. */
function settle(
  captures: readonly (readonly string[] | null)[],
  counts: readonly CountRow[],
  machine: Partial<MachineRow> = {},
): Settlement {
  const row = makeMachine({ machine: 'M1', asset: 'A1', currency: 'EUR', decimals: 2, route: 'R1', ...machine });
  const files = captures.map((segments, i) => ({ file: `${i}.dex`, segments, at: `${DAYS[i]}T10:00:00` }));
  const place = { file: 'list.csv', row: 2 };
  const capturesList = files.map(({ file, at }) => ({
    ...{
      file,
      receivedAt: at,
      reason: 'service' as const,
      signal: null,
      filled: null,
      machine: null,
      bag: null,
      place,
    },
  }));
  const roster = new Roster({ machines: [row], capturesList });
  const reads = files.flatMap(({ file, segments }) => {
    if (segments === null) return [];
    const bytes = buildCapture(['ID1*S1*M****A1', 'ID4*2*978*EUR', ...segments]);
    return takeReads(file, readCaptures(bytes).reads, { roster, check: () => [] });
  });
  const [settlement] = settleRound({ reads, counts, roster }, { day: DAYS[captures.length - 1]! }).settlements;
  checkTraces(settlement!);
  return settlement!;
}

const at = (day: number): string => `${DAYS[day]}T10:00:00`;
/** Lifetime counters: to the cash box, dispensed by hand, filled, bills as a value. */
const cash = (box: number, byHand: number, filled: number, bills = 0): string[] => [
  `CA3*****${box + bills}*${box}*0*${bills}`,
  `CA4***${byHand}*${byHand}`,
  `CA10**${filled}`,
];
const stepOf = (settlement: Settlement, id: string) => traceFigure(settlement, id)!.step;

describe('traces of a visit', () => {
  it('come to the printed figure for random rounds', () => {
    const choice = {
      ...{ minReads: 2, maxReads: 5, maxMachines: 3, unseenResets: true, discounts: true },
      restarts: ['board-changed', 'memory-cleared'] as const,
      machine: { money: [EUR], interval: ['kept', 'absent'] as const },
    };
    fc.assert(
      fc.property(arbitraryRound(choice), (machines) => {
        const { reads, bags } = playRound(machines);
        const counts = bags.map((bag, i) => countBag(bag, i + 2, { coins: (i % 3) * 10, bills: 0 }));
        for (const settlement of settleRound({ ...takeRound(machines, reads), counts }).settlements)
          checkTraces(settlement);
      }),
      { seed: 20_261_126, numRuns: 40 },
    );
  });

  it('show what is expected line by line, what was filled taken away', () => {
    const settlement = settle(
      [cash(1000, 100, 200), cash(1600, 150, 230, 500)],
      [makeCount('M1', at(1), { bag: 'B1', coins: 620, bills: 500 })],
    );
    const step = stepOf(settlement, 'visits.B1.expected.coins');
    expect([step.value, partsOf(step)]).toEqual([620, ['+600', '+50', '-30']]);
    expect(step.parts.map(({ parts }) => parts.map(({ place }) => place?.element))).toEqual([
      ['CA306', 'CA306'],
      ['CA404', 'CA404'],
      ['CA1002', 'CA1002'],
    ]);
    expect(stepOf(settlement, 'visits.B1.overShort.total').value).toBe(0);
    expect(stepOf(settlement, 'totals.counted.coins').parts.map(({ ref }) => ref)).toEqual(['visits.B1.counted.coins']);
  });

  it('take what the sheet says of hand moves, with its row and column', () => {
    const count = makeCount('M1', at(1), {
      bag: 'B1',
      coins: 800,
      bills: 0,
      paidOut: 40,
      filled: 15,
      floatIssued: 175,
      row: 7,
    });
    const step = stepOf(settle([cash(0, 0, 0), cash(600, 99, 99)], [count]), 'visits.B1.expected.coins');
    expect([step.value, partsOf(step)]).toEqual([800, ['+600', '+40', '-15', '+175']]);
    expect(step.parts.slice(1).map(({ place }) => [place?.row, place?.field])).toEqual([
      [7, 'paid_out'],
      [7, 'filled'],
      [7, 'float_issued'],
    ]);
  });

  it('take counters that a machine does not have for none booked', () => {
    const bare = (box: number) => [`CA3*****${box}*${box}*0`];
    const settlement = settle([bare(0), bare(600)], [makeCount('M1', at(1), { bag: 'B1', coins: 600, bills: null })]);
    const notes = notesOf(stepOf(settlement, 'visits.B1.expected.coins'));
    expect(notes.filter((note) => note.includes('none were booked'))).toHaveLength(2);
    expect(stepOf(settlement, 'visits.B1.overShort.bills')).toMatchObject({
      value: 0,
      note: 'None expected and none counted.',
    });
    expect(stepOf(settlement, 'visits.B1.cardSales').note).toMatch(/no card counters/);
    expect(stepOf(settlement, 'totals.counted.bills').value).toBe(0);
  });

  it('take no bills from a machine that takes none', () => {
    const bare = (box: number) => [`CA3****${''}**${box}`];
    const settlement = settle([bare(0), bare(600)], [makeCount('M1', at(1), { bag: 'B1', coins: 600, bills: null })], {
      hasBills: false,
    });
    const step = stepOf(settlement, 'visits.B1.expected.bills');
    expect([step.value, notesOf(step)[0]]).toEqual([0, 'The machine takes no bills, the roster says.']);
  });

  it('say what is in the way', () => {
    const first = settle([cash(0, 0, 0)], [makeCount('M1', at(0), { bag: 'B1', coins: 600, bills: 0 })]);
    expect(stepOf(first, 'visits.B1.expected.coins').note).toMatch(/no collection to count from/);
    expect(stepOf(first, 'visits.B1.overShort.total').note).toMatch(/The visit is unsettled/);
    expect(stepOf(first, 'visits.B1.sold').note).toMatch(/not known for all of the time/);
    expect(stepOf(first, 'totals.sold').note).toBe('No settled visit has it.');
    expect(stepOf(first, 'totals.loss').note).toBe('No settled visit has it.');
    const uncounted = settle([cash(0, 0, 0), cash(600, 0, 0)], []);
    const [visit] = uncounted.visits;
    expect(visit!.state).toBe('uncounted');
    const step = stepOf(uncounted, `visits.M1@${visit!.visitedAt}.counted.coins`);
    expect(step.note).toBe('No bag was counted for this visit.');
  });

  it('name a visit by machine and time where its bag does not tell it from another', () => {
    const counts = [
      makeCount('M1', `${DAYS[1]}T10:00:00`, { bag: 'B1', coins: 300, bills: 0, row: 2 }),
      makeCount('M2', `${DAYS[1]}T11:00:00`, { bag: 'B1', coins: 300, bills: 0, row: 3 }),
    ];
    const settlement = settle([cash(0, 0, 0), cash(300, 0, 0)], counts);
    const own = settlement.visits.filter(({ machine }) => machine === 'M1');
    for (const { visitedAt } of own)
      expect(traceFigure(settlement, `visits.M1@${visitedAt}.counted.coins`)).not.toBeNull();
  });

  it('say where the bags of one visit leave what was counted open', () => {
    const counts = [
      makeCount('M1', at(1), { bag: 'B1', coins: 300, bills: 0, row: 2 }),
      makeCount('M1', at(1), { bag: 'B2', coins: 200, bills: 0, row: 3 }),
    ];
    const settlement = settle([cash(0, 0, 0), cash(300, 0, 0)], counts);
    const visit = settlement.visits.find((one) => one.counted.coins === null)!;
    const key = visit.bag ?? `M1@${visit.visitedAt}`;
    expect(stepOf(settlement, `visits.${key}.counted.coins`).note).toMatch(/not certain what the coins/);
  });

  it('add up from read to read where that is what is known', () => {
    const silent = (box: number) => [`CA3*****${box}*${box}*0`];
    const counts = [makeCount('M1', at(3), { bag: 'B9', coins: 900, bills: 0 })];
    const settlement = settle([silent(0), silent(300), silent(500), silent(900)], counts);
    const step = stepOf(settlement, 'visits.B9.expected.coins');
    expect(step.value).toBe(settlement.visits.find(({ bag }) => bag === 'B9')!.expected.coins);
  });
});
