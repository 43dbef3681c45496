import { add, type Minor } from '../model/index.js';

/** How an amount at stake is meant. What is estimated is `about`, and rounded to two significant digits. */
export type StakeBound = 'exact' | 'about' | 'at-least' | 'at-most';

/** What something may cost. Minor units; null is not known, never 0. */
export interface Stake {
  /** So far. */
  readonly amount: Minor | null;
  /** How `amount` is meant; null where there is none. */
  readonly bound: StakeBound | null;
  /** Always about: for every further day until it is put right. */
  readonly perDay: Minor | null;
  /** How it was estimated, or why it is not known. */
  readonly how: string;
}

/** Nothing is known of what it may cost. */
export function stakeNotKnown(how: string): Stake {
  return { amount: null, bound: null, perDay: null, how };
}

/** An amount so far; without one the stake is not known. */
export function stakeOf(amount: Minor | null, bound: StakeBound, how: string, perDay: Minor | null = null): Stake {
  return { amount, bound: amount === null ? null : bound, perDay, how };
}

/**
 * What decides the order of the list: the amount so far and one more day of it, since nothing is put right before that.
 *
 * @returns null when neither is known
 */
export function weighStake({ amount, perDay }: Stake): Minor | null {
  if (amount === null) return perDay;
  return perDay === null ? amount : (add(amount, perDay) ?? amount);
}
