import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSettled, type Visit } from '../../src/settlement/index.js';
import { arbitraryDays, type DaysCase, type DaysOutcome, settleDays } from '../settlement/play-days.js';

// Days of one machine with visits and nightly reads, of which captures are cut, taken again or lost, bags are missing or
// known by their date alone, with and without a captures list. What truly lay in the bags is the simulator's word.
describe('a machine read every night, its bags and captures as they come', () => {
  it.each([
    ['once a day at most', false, 121, 200],
    ['up to twice a day', true, 124, 200],
  ])('is never settled to a wrong difference, visited %s', (_, isTwice, seed, numRuns) => {
    const seen = { settled: 0, joint: 0, missing: 0 };
    const check = (given: DaysCase): void => {
      const outcome = settleDays(given);
      for (const visit of outcome.visits.filter(isSettled)) {
        const { counted, missing } = expectTrue(visit, outcome);
        seen.settled++;
        if (counted.length > 1) seen.joint++;
        if (missing.length === 0) continue;
        seen.missing++;
        // A bag that nobody counted is money that is not there. Where a captures list knows of its visit it opens the next.
        const known = missing.filter(({ hasUsableCapture }) => hasUsableCapture);
        expect(given.listing === 'reasons' ? known : []).toEqual([]);
        const said = visit.findings.find(({ code }) => code === 'short')?.message;
        if (known.length > 0 && said !== undefined) expect(said).toContain('a bag collected then and missing');
      }
    };
    fc.assert(fc.property(arbitraryDays(isTwice), check), { numRuns, seed });
    expect(seen.settled).toBeGreaterThan(100);
    expect(seen.joint).toBeGreaterThan(20);
    if (!isTwice) expect(seen.missing).toBeGreaterThan(20);
  });

  it('holds less against a bag without a capture than truly was in it and the open ones before it', () => {
    let floors = 0;
    const check = (given: DaysCase): void => {
      const { visits, bags, orderOf } = settleDays(given);
      for (const visit of visits) {
        if (visit.state !== 'unread' || visit.expected.coins === null) continue;
        const from = orderOf.get(visit.since!)!;
        const upTo = Math.max(
          ...bags.flatMap(({ row, order }) => (row !== null && visit.counts.includes(row) ? [order] : [])),
        );
        const within = bags.filter(({ order }) => order > from && order <= upTo);
        // Every bag on the sheet that the floor may lie in is named beside it.
        const onSheet = within.flatMap(({ row }) => (row === null ? [] : [row]));
        expect([...visit.counts].sort(byRow)).toEqual(onSheet.sort(byRow));
        expect(visit.expected.coins).toBeLessThanOrEqual(within.reduce((total, { content }) => total + content, 0));
        floors++;
      }
    };
    fc.assert(fc.property(arbitraryDays(), check), { numRuns: 200, seed: 122 });
    expect(floors).toBeGreaterThan(20);
  });

  it('is settled whole where everything is there', () => {
    const check = ({ days, ...given }: DaysCase): void => {
      const whole = days.map((day) => ({
        ...day,
        night: 'whole' as const,
        second: null,
        visit: day.visit === null ? null : { ...day.visit, capture: 'whole' as const, bag: 'timed' as const },
      }));
      const { visits } = settleDays({ ...given, days: whole });
      const [first, ...others] = visits;
      if (first === undefined) return;
      expect(first.findings.map(({ code }) => code)).toContain('no-opening');
      const miscounts = whole.flatMap(({ visit }) => (visit === null ? [] : [visit.miscount])).slice(1);
      expect(others.map(({ overShort }) => overShort.total)).toEqual(miscounts);
    };
    fc.assert(fc.property(arbitraryDays(), check), { numRuns: 100, seed: 123 });
  });
});

/** Holds a settled visit against what truly happened between the captures that it is counted from and up to. */
function expectTrue({ since, capture, expected, counts, overShort }: Visit, { bags, orderOf }: DaysOutcome) {
  const [from, to] = [orderOf.get(since!)!, orderOf.get(capture!)!];
  const within = bags.filter(({ order }) => order > from && order <= to);
  const counted = within.flatMap(({ row }) => (row === null ? [] : [row]));
  const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);
  // What left the machine since the last collection is what lay in the bags taken since, counted or not.
  const content = sum(within.map((bag) => bag.content));
  expect(expected.coins! + expected.bills!).toBe(content);
  expect([...counts].sort(byRow)).toEqual(counted.sort(byRow));
  expect(overShort.total).toBe(sum(counted.map(({ coins, bills }) => coins! + bills!)) - content);
  return { counted, missing: within.filter(({ row }) => row === null) };
}

const byRow = (a: { place: { row: number } }, b: { place: { row: number } }): number => a.place.row - b.place.row;
