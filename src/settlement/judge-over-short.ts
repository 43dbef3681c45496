import { add, multiply, subtract } from '../model/index.js';
import type { CashByKind, Tolerance } from './settlement.js';

/** Counted less expected by kind, and in total; null is not known. */
export type OverShort = CashByKind & { readonly total: number | null };

/**
 * Counted less expected. A kind of which nothing is expected and nothing was counted (no bills, in a machine that takes
 * none) is 0; one that was not counted although something is expected is not known.
 */
export function compareCounted(expected: CashByKind, counted: CashByKind): OverShort {
  const of = (kind: 'coins' | 'bills'): number | null =>
    counted[kind] === null && expected[kind] === 0 ? 0 : subtract(counted[kind], expected[kind]);
  const coins = of('coins');
  const bills = of('bills');
  return { coins, bills, total: add(coins, bills) };
}

/** The state of a visit with a known difference: by the total, within the tolerance. */
export function stateOf(overShort: number, expected: CashByKind, tolerance: Tolerance): 'agreed' | 'over' | 'short' {
  if (Math.abs(overShort) <= allowance(expected, tolerance)) return 'agreed';
  return overShort > 0 ? 'over' : 'short';
}

/** The larger of the amount and the part of what was expected, rounded down: less than a minor unit is no allowance. */
function allowance(expected: CashByKind, { amount, basisPoints }: Tolerance): number {
  const total = add(expected.coins, expected.bills);
  const scaled = total === null ? null : multiply(Math.abs(total), basisPoints);
  return Math.max(amount, scaled === null ? 0 : Math.floor(scaled / 10_000));
}
