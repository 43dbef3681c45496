import { describe, expect, it } from 'vitest';
import { stakeNotKnown, stakeOf, weighStake } from '../../src/attention/stake.js';

describe('weighStake', () => {
  it('is the amount so far and one day more of it', () => {
    expect(weighStake(stakeOf(500, 'exact', ''))).toBe(500);
    expect(weighStake(stakeOf(500, 'about', '', 30))).toBe(530);
    expect(weighStake(stakeOf(null, 'about', '', 30))).toBe(30);
    expect(weighStake(stakeNotKnown(''))).toBeNull();
  });

  it('keeps the amount where the sum would not be exact', () => {
    expect(weighStake(stakeOf(Number.MAX_SAFE_INTEGER, 'exact', '', 1))).toBe(Number.MAX_SAFE_INTEGER);
  });
});

describe('stakeOf', () => {
  it('has no bound where there is no amount', () => {
    expect(stakeOf(null, 'about', 'why', 5)).toEqual({ amount: null, bound: null, perDay: 5, how: 'why' });
  });
});
