import { currencyByAlpha, type MachineRow, type MoneyDefaults, type Tolerance } from '../index.js';
import { UsageError } from './exit-status.js';
import type { SettlingOptions, SharedOptions } from './option-shapes.js';

/** The money that options give for captures and machines which say none: a currency brings its own decimals. */
export function defaultMoney({ currency, decimals }: Pick<SharedOptions, 'currency' | 'decimals'>): MoneyDefaults {
  return {
    currency: currency ?? null,
    decimals: decimals ?? currencyByAlpha(currency ?? '')?.decimals ?? null,
  };
}

/**
 * The tolerance as options give it. An amount is read with the decimals of the roster's machines, which must agree.
 *
 * @throws UsageError where the amount has no one meaning
 */
export function readTolerance(options: SettlingOptions, machines: readonly MachineRow[]): Tolerance {
  const { tolerance, tolerancePercent } = options;
  return {
    amount: tolerance === undefined ? 0 : toMinor(tolerance, decimalsFor(options, machines), '--tolerance'),
    basisPoints: tolerancePercent === undefined ? 0 : toMinor(tolerancePercent, 2, '--tolerance-percent'),
  };
}

function decimalsFor(options: SharedOptions, machines: readonly MachineRow[]): number {
  const known = new Set<number>();
  for (const { decimals, currency } of machines) {
    const own = decimals ?? currencyByAlpha(currency ?? '')?.decimals;
    if (own !== undefined) known.add(own);
  }
  const own = defaultMoney(options).decimals;
  if (known.size === 1) return [...known][0]!;
  if (known.size > 1)
    throw new UsageError('--tolerance: the machines have different decimals; use --tolerance-percent');
  if (own === null) throw new UsageError('--tolerance: the decimals are not known; add --decimals or --currency');
  return own;
}

/** Decimal text as a whole number of its smallest unit, exactly. */
function toMinor(text: string, decimals: number, flag: string): number {
  const [whole, fraction = ''] = text.split(/[.,]/) as [string, string?];
  if (fraction.length > decimals) throw new UsageError(`${flag}: "${text}" has more than ${decimals} decimals`);
  return Number(whole + fraction.padEnd(decimals, '0'));
}
