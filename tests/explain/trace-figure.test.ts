import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeReads } from '../../src/captures/index.js';
import { listFigureIds, type TraceStep, traceFigure } from '../../src/explain/index.js';
import { buildIntervals, type Interval } from '../../src/interval/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/index.js';
import { arbitraryHistory, type HistoryChoice } from '../support/arbitraries/history.js';
import { demoReads, demoRoster, settleDemo } from '../support/demo-files.js';
import { checkTraces } from './check-traces.js';

const EVERYTHING: HistoryChoice = {
  maxReads: 4,
  priceChanges: true,
  discounts: true,
  revalues: true,
  unseenResets: true,
  tubeFaults: true,
  billsSettingChanges: true,
  handWork: true,
  clockChanges: true,
  restarts: ['board-changed', 'memory-cleared'],
  machine: { rollOver: ['none', 'column-count', 'column-value', 'total-count', 'total-value'], cardPriceLists: true },
};

function intervalsOf(captures: readonly Uint8Array[]): readonly Interval[] {
  const roster = new Roster();
  const reads = captures.flatMap((bytes, i) => takeReads(`${i}.dex`, readCaptures(bytes).reads, { roster }));
  return buildIntervals(reads, roster).intervals;
}

describe('traceFigure', () => {
  it('comes to the printed figure for every figure of the demo, intervals and settlement', () => {
    const roster = demoRoster();
    const { intervals } = buildIntervals(demoReads(roster), roster);
    expect(intervals.length).toBeGreaterThan(30);
    for (const interval of intervals) expect(checkTraces(interval).known).toBeGreaterThan(100);
    const [settlement] = settleDemo().settlements;
    const { known, unknown } = checkTraces(settlement!);
    expect(known).toBeGreaterThan(1000);
    expect(unknown).toBeGreaterThan(10);
  });

  it('comes to the printed figure whatever happened at the machine', () => {
    fc.assert(
      fc.property(arbitraryHistory(EVERYTHING), (history) => {
        for (const interval of intervalsOf(history.reads.map(({ bytes }) => bytes))) checkTraces(interval);
      }),
      { seed: 20_261_124, numRuns: 60 },
    );
  });

  it('comes to the printed figure where only the counters since the last reset are kept', () => {
    const machine = { ...EVERYTHING.machine, lifetime: ['zero', 'absent'], interval: ['kept'] } as const;
    fc.assert(
      fc.property(arbitraryHistory({ ...EVERYTHING, machine }), (history) => {
        for (const interval of intervalsOf(history.reads.map(({ bytes }) => bytes))) checkTraces(interval);
      }),
      { seed: 20_261_125, numRuns: 40 },
    );
  });

  it('shows the elements of a figure with file, line and value', () => {
    const roster = demoRoster();
    const [interval] = buildIntervals(demoReads(roster, '08'), roster).intervals.filter(
      ({ to }) => to.machine!.machine === 'V101',
    );
    const trace = traceFigure(interval!, 'columns.24.sold')!;
    expect(trace).toMatchObject({ id: 'columns.24.sold', currency: 'EUR', decimals: 2 });
    const { step } = trace;
    const values = (parts: readonly TraceStep[]) =>
      parts.map(({ sign, value, place }) => [sign, value, place?.file?.slice(-24), place?.element, typeof place?.line]);
    const [later, earlier] = values(step.parts);
    expect([step.label, step.unit]).toEqual(['Column 24, Nougat: paid vends', 'count']);
    expect(later).toEqual([1, (earlier![1] as number) + step.value!, '2026-11-23-0805-v101.dex', 'PA201', 'number']);
    expect(earlier!.slice(2)).toEqual(['2026-11-20-0805-v101.dex', 'PA201', 'number']);
    expect(earlier![0]).toBe(-1);
  });

  it('has no trace for what is no figure, and lists those there are', () => {
    const { settlements } = settleDemo();
    expect(traceFigure(settlements[0]!, 'visits.B4401.expected.gold')).toBeNull();
    expect(listFigureIds(settlements[0]!)).toContain('visits.B4401.expected.coins');
  });
});
