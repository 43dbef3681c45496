import { describe, expect, it } from 'vitest';
import { momentOfCount, visitedAtOf } from '../../src/settlement/collection.js';
import { makeCount } from './scenario.js';

describe('when a bag was collected', () => {
  it('is as the sheet has it', () => {
    expect(visitedAtOf(makeCount('M1', '2026-11-24'))).toBe('2026-11-24');
    expect(visitedAtOf(makeCount('M1', '2026-11-24T00:00'))).toBe('2026-11-24T00:00:00');
  });

  it('is taken at noon where only the date is given', () => {
    expect(momentOfCount(makeCount('M1', '2026-11-24'))).toBe('2026-11-24T12:00:00');
    expect(momentOfCount(makeCount('M1', '2026-11-24T00:00'))).toBe('2026-11-24T00:00:00');
  });
});
