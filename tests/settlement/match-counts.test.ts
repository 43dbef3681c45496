import { describe, expect, it } from 'vitest';
import { matchCounts } from '../../src/settlement/match-counts.js';
import { makeCount, readsOf } from './scenario.js';

const service = { reason: 'service' } as const;
const TWO = { a: { at: '2026-11-24T10:00', ...service }, b: { at: '2026-11-24T16:00', box: 50, ...service } };

function filesOf(
  counts: Parameters<typeof matchCounts>[0],
  captures: Parameters<typeof readsOf>[0]['captures'] = TWO,
): (string | null)[] {
  return matchCounts(counts, readsOf({ captures }), 60).map(({ match }) => match.read?.taken.file ?? null);
}

describe('matchCounts', () => {
  it('matches the strongest first, whatever the order of the rows', () => {
    const byDate = makeCount('M1', '2026-11-24', { row: 2 });
    const byTime = makeCount('M1', '2026-11-24T10:10', { row: 3 });
    expect(filesOf([byDate, byTime])).toEqual(['b', 'a']);
    expect(filesOf([byTime, byDate])).toEqual(['a', 'b']);
  });

  it('leaves a bag without capture where the only one of its date is at another visit', () => {
    const lost = makeCount('M1', '2026-11-24T09:00');
    const found = makeCount('M1', '2026-11-24T16:05');
    expect(filesOf([lost, found], { b: TWO.b })).toEqual([null, 'b']);
  });

  it('asks where two bags give no more than the date', () => {
    expect(filesOf([makeCount('M1', '2026-11-24'), makeCount('M1', '2026-11-24')])).toEqual([null, null]);
  });

  it('lets two bags claim one capture where nothing else fits', () => {
    expect(filesOf([makeCount('M1', '2026-11-24T10:00'), makeCount('M1', '2026-11-24T10:20')])).toEqual(['a', 'a']);
  });

  it('keeps what a bag names', () => {
    const named = makeCount('M1', '2026-11-24', { capture: 'a' });
    expect(filesOf([named, makeCount('M1', '2026-11-24')])).toEqual(['a', 'b']);
  });
});
