import type { CashMovement } from '../../interval/index.js';

/**
 * A text as part of an `id` and of the link to it: letters and digits stay, all else becomes `_` and its code. Different
 * texts of up to 60 characters give different ids.
 */
export function anchorText(text: string): string {
  return text.slice(0, 60).replace(/[^A-Za-z0-9-]/g, (character) => `_${character.charCodeAt(0).toString(16)}_`);
}

/**
 * The id of a column's row on its machine's page: `columns-11`.
 *
 * @param interval - which interval of the page, counted from 1, newest first; the first one's ids bear no number
 */
export function columnAnchor(column: string, interval = 1): string {
  return `${intervalPrefix(interval)}columns-${anchorText(column)}`;
}

/** A cash figure that a page shows: those of an interval, and the tubes as they stand. */
export type CashAnchor = keyof CashMovement;

/** The id of a cash figure on its machine's page: `cash-to-cash-box`. */
export function cashAnchor(figure: CashAnchor, interval = 1): string {
  const words = figure.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return `${intervalPrefix(interval)}cash-${words}`;
}

function intervalPrefix(interval: number): string {
  return interval === 1 ? '' : `interval-${interval}-`;
}
