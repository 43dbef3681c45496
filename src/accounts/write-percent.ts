import type { PartsPerMillion } from '../model/index.js';

/** A rate as decimal text, in percent and without needless zeros: `12.5`, `19`, `8.875`; null where it is not stated. */
export function writePercent(rate: PartsPerMillion | null): string | null {
  if (rate === null) return null;
  const digits = String(rate).padStart(5, '0');
  const fraction = digits.slice(-4).replace(/0+$/, '');
  return digits.slice(0, -4) + (fraction === '' ? '' : `.${fraction}`);
}
