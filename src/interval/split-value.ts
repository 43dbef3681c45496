import { type Count, type Minor, multiply, subtract } from '../model/index.js';

/** So many vends at one price; `list` where a payment device and price list told them apart. */
export interface PriceShare {
  readonly count: Count;
  readonly price: Minor;
  /** Payment device and list, such as `CA/0` or `LA1/3`; absent where prices alone explain the money. */
  readonly list?: string;
}

/** How the money taken for a column's vends is explained by known prices. */
export interface ValueSplit {
  /** Vends at each price, before discounts; empty when prices do not explain the money, or do so in more than one way. */
  readonly shares: readonly PriceShare[];
  /** Value less what known prices explain; 0 when they explain all of it. */
  readonly unexplained: Minor;
}

/**
 * Explain the value of `sold` vends by one or two prices.
 *
 * With one price p: sold × p. With p0 and p1 there is at most one whole solution of value = a·p0 + b·p1, a + b = sold:
 * a = (value − sold·p1) / (p0 − p1). Where nothing fits, the nearest sum that would is taken and the rest is unexplained.
 *
 * @param prices - the known prices: at the earlier read, then at the later; the same one may come twice
 * @returns null when no price is known or a product is too large to be exact
 */
export function splitValue(sold: Count, value: Minor, prices: readonly Minor[]): ValueSplit | null {
  const later = prices.at(-1);
  const earlier = prices[0];
  if (later === undefined || earlier === undefined) return null;
  const allLater = multiply(sold, later);
  const allEarlier = multiply(sold, earlier);
  if (allLater === null || allEarlier === null) return null;
  const exact = (count: Count): ValueSplit => ({ shares: shares(count, earlier, sold, later), unexplained: 0 });
  if (value === allLater) return exact(0);
  if (value === allEarlier) return exact(sold);
  const step = earlier - later;
  if (step === 0) return mismatch(value, allLater);
  const atEarlier = (value - allLater) / step;
  if (Number.isInteger(atEarlier) && atEarlier > 0 && atEarlier < sold) return exact(atEarlier);
  const nearest = Math.min(Math.max(Math.round(atEarlier), 0), sold);
  return mismatch(value, allLater + nearest * step);
}

function mismatch(value: Minor, explained: Minor): ValueSplit | null {
  const unexplained = subtract(value, explained);
  return unexplained === null ? null : { shares: [], unexplained };
}

function shares(count: Count, earlier: Minor, sold: Count, later: Minor): PriceShare[] {
  if (sold === 0) return [];
  if (count === 0 || earlier === later) return [{ count: sold, price: later }];
  if (count === sold) return [{ count, price: earlier }];
  return [
    { count, price: earlier },
    { count: sold - count, price: later },
  ];
}
