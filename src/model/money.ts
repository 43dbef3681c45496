/** An amount of money in minor units (cents, or units where the currency has no decimals). Always a safe integer. */
export type Minor = number;
/** A number of pieces: vends, coins, bills, events. Always a safe integer. */
export type Count = number;

/**
 * Add amounts of one currency, or counts. Null (not known) makes the sum not known; so does a sum outside the safe
 * integers, since a wrong figure is worse than none.
 */
export function add(...values: readonly (number | null)[]): number | null {
  return addAll(values);
}

/** The same of a list, however long. */
export function addAll(values: Iterable<number | null>): number | null {
  let sum = 0;
  for (const value of values) {
    if (value === null) return null;
    sum += value;
    // Checked at every step: past the safe integers a sum is rounded, and may come back looking safe.
    if (!Number.isSafeInteger(sum)) return null;
  }
  return sum;
}

/** `a - b`, with null (not known) for an operand that is not known or a result outside the safe integers. */
export function subtract(a: number | null, b: number | null): number | null {
  if (a === null || b === null) return null;
  const difference = a - b;
  return Number.isSafeInteger(difference) ? difference : null;
}

/** A count times a price in minor units, with null for an unknown operand or a result outside the safe integers. */
export function multiply(count: Count | null, price: Minor | null): Minor | null {
  if (count === null || price === null) return null;
  const product = count * price;
  // `+ 0` turns the -0 that 0 × -5 gives into 0, which JSON and equality tests tell apart.
  return Number.isSafeInteger(product) ? product + 0 : null;
}

/**
 * Write an amount as plain decimal text, with a point and no thousands marks: `1234`, 2 decimals → `12.34`.
 *
 * @param decimals - how many decimals the currency has, 0 or more
 */
export function formatMinor(amount: Minor, decimals: number): string {
  const sign = amount < 0 ? '-' : '';
  const digits = String(Math.abs(amount)).padStart(decimals + 1, '0');
  if (decimals === 0) return sign + digits;
  return `${sign}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
}

/**
 * Write an amount for a person: `12.34 EUR`. Where the decimals are not known the digits stand as the machine gives them,
 * and that is said.
 */
export function describeMoney(amount: Minor, decimals: number | null, currency: string | null): string {
  const unit = currency === null ? '' : ` ${currency}`;
  return decimals === null ? `${amount}${unit} (decimals not known)` : `${formatMinor(amount, decimals)}${unit}`;
}
