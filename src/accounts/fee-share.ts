import { formatMinor, type Minor } from '../model/index.js';
import { makeFraction } from './fraction.js';
import { roundHalfEven } from './round-half-even.js';

/** What a processor kept back: the rate is exactly `fees / gross`. */
export interface FeeShare {
  readonly fees: Minor;
  readonly gross: Minor;
  /** The rate in percent with two decimals, rounded half to even: `2.50`. */
  readonly percent: string;
}

const HUNDREDTHS_OF_A_PERCENT = 10_000n;

/** The share of the fees in the gross; null where one is not known, there is no gross to take a share of, or it is beyond sense. */
export function shareFees(fees: Minor | null, gross: Minor | null): FeeShare | null {
  if (fees === null || gross === null || gross === 0) return null;
  const rate = makeFraction(BigInt(fees) * HUNDREDTHS_OF_A_PERCENT, BigInt(gross));
  const hundredths = Number(roundHalfEven(rate));
  return Number.isSafeInteger(hundredths) ? { fees, gross, percent: formatMinor(hundredths, 2) } : null;
}
