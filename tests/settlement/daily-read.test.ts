import { describe, expect, it } from 'vitest';
import { isDailyRead } from '../../src/settlement/daily-read.js';
import { matchCounts } from '../../src/settlement/match-counts.js';
import { makeCount, readsOf, type Shown } from './scenario.js';

const at = (when: string, box: number, more: Partial<Shown> = {}): Shown => ({ at: `2026-11-${when}`, box, ...more });
const NIGHTS = { n23: at('23T23:30', 100), n24: at('24T23:34', 200) };

function isDaily(captures: Record<string, Shown>, bagDates: readonly string[], file = 'n24'): boolean {
  const reads = readsOf({ captures });
  const read = reads.usable.all.find(({ taken }) => taken.file === file)!;
  return isDailyRead(read, reads, new Set(bagDates.map((day) => `2026-11-${day}`)));
}

describe('isDailyRead', () => {
  it('is so where the night before or after was read at that hour and nobody collected', () => {
    expect(isDaily(NIGHTS, ['24'])).toBe(true);
    expect(isDaily({ n24: NIGHTS.n24, n25: at('25T23:20', 300) }, ['24'])).toBe(true);
    expect(isDaily({ ...NIGHTS, n23: { ...NIGHTS.n23, damaged: true } }, ['24'])).toBe(true);
  });

  it('is so where that day has a capture of another hour besides', () => {
    expect(isDaily({ visit: at('23T10:00', 50), ...NIGHTS }, ['23', '24'])).toBe(true);
  });

  it('is not so where each day has its bag and its one capture, or the hours differ, or the reason is known', () => {
    expect(isDaily(NIGHTS, ['23', '24'])).toBe(false);
    expect(isDaily({ ...NIGHTS, n23: at('23T18:00', 100) }, ['24'])).toBe(false);
    expect(isDaily({ ...NIGHTS, n24: { ...NIGHTS.n24, reason: 'service' } }, ['24'])).toBe(false);
    expect(isDaily({ ...NIGHTS, n23: { ...NIGHTS.n23, reason: 'service' } }, ['24'])).toBe(false);
  });
});

describe('a bag of a date, whose capture is lost', () => {
  it('is not matched to the nightly read, and that is said', () => {
    const reads = readsOf({ captures: NIGHTS });
    const [found] = matchCounts([makeCount('M1', '2026-11-24')], reads, 60);
    expect(found!.match.read).toBeNull();
    expect(found!.match.passedOver.map(({ taken }) => taken.file)).toEqual(['n24']);
  });

  it('is asked about where another capture of the date is there', () => {
    const reads = readsOf({ captures: { ...NIGHTS, visit: at('24T10:00', 150) } });
    const [found] = matchCounts([makeCount('M1', '2026-11-24')], reads, 60);
    expect(found!.match.candidates).toHaveLength(2);
  });
});
