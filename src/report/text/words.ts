import { type Count, formatMinor, type LocalDateTime, type Minor, minutesBetween } from '../../model/index.js';

/** What stands for a figure that is not known. */
export const NOT_KNOWN = '-';

/** In which money the amounts of a report are. */
export interface MoneyUnit {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** An amount as a table shows it, without its currency; digits as the machine gives them where decimals are not known. */
export function amountCell(amount: Minor | null, { decimals }: MoneyUnit): string {
  return amount === null ? NOT_KNOWN : formatMinor(amount, decimals ?? 0);
}

/** The unit of a report's amounts, such as `EUR`. */
export function unitWords({ currency, decimals }: MoneyUnit): string {
  const name = currency ?? 'currency not known';
  return decimals === null ? `${name}, decimals not known: digits as the machine gives them` : name;
}

/** An amount with its sign, for differences. */
export function signedCell(amount: Minor | null, unit: MoneyUnit): string {
  return amount !== null && amount > 0 ? `+${amountCell(amount, unit)}` : amountCell(amount, unit);
}

/** A number of pieces as a table shows it. */
export function countCell(count: Count | null): string {
  return count === null ? NOT_KNOWN : String(count);
}

/** A number with its noun: `1 read`, `2 reads`. */
export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** A local time for a person, to the minute; its seconds only where they say something. */
export function timeWords(when: string | null): string {
  return when === null ? 'time not known' : when.replace('T', ' ').replace(/(:\d\d):00$/, '$1');
}

/** How long it was from one time to another: `3 d 4 h`, `13 h 55 min`, `25 min`; null when it is not known or went back. */
export function durationWords(from: LocalDateTime | null, to: LocalDateTime | null): string | null {
  if (from === null || to === null || to < from) return null;
  const minutes = minutesBetween(from, to);
  const days = Math.floor(minutes / 1440);
  const hours = Math.floor((minutes % 1440) / 60);
  const parts = days > 0 ? [`${days} d`, `${hours} h`] : hours > 0 ? [`${hours} h`, `${minutes % 60} min`] : [];
  return parts.length === 0 ? `${minutes} min` : parts.filter((part) => !part.startsWith('0 ')).join(' ');
}
