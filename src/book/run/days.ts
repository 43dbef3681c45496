import type { LocalDate } from '../../model/index.js';

const DAY_MS = 24 * 60 * 60 * 1000;

/** The date so many days after another, or before it. */
export function addDays(date: LocalDate, days: number): LocalDate {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
}
