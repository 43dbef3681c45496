import type { LocalDate } from '../model/index.js';
import { type SettleOptions, type Tolerance, VISIT_WINDOW_MINUTES } from './settlement.js';

/** Options with their defaults filled in. */
export interface SettleRules {
  readonly route: string | null;
  readonly day: LocalDate | null;
  readonly tolerance: Tolerance;
  readonly windowMinutes: number;
  readonly ignoreHandMoves: boolean;
}

const NO_TOLERANCE: Tolerance = { amount: 0, basisPoints: 0 };

/**
 * Fill in what the options leave out.
 *
 * @throws RangeError when a tolerance or the window is no whole number of 0 or more
 */
export function resolveOptions(options: SettleOptions): SettleRules {
  const { route = null, day = null, tolerance = NO_TOLERANCE, windowMinutes = VISIT_WINDOW_MINUTES } = options;
  for (const [name, value] of [
    ['tolerance.amount', tolerance.amount],
    ['tolerance.basisPoints', tolerance.basisPoints],
    ['windowMinutes', windowMinutes],
  ] as const) {
    if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${name} is no whole number of 0 or more`);
  }
  return { route, day, tolerance, windowMinutes, ignoreHandMoves: options.ignoreHandMoves ?? false };
}
