// As a namespace, so that a bundle for the browser carries only the parts of zod that are used.
import * as z from 'zod';
import type { PartsPerMillion } from '../model/index.js';
import { type CellContext, type CellReading, quote, refuse, took } from './cell-reading.js';
import type { Column } from './columns.js';

const PARTS_IN_PERCENT = 10_000;
const MOST_DECIMALS = 4;
const PERCENT = /^(\d{0,3})(?:[.,](\d+))?\s*(%?)$/;
const EXPECTED = 'a percentage from 0 to 100 with at most 4 decimals, such as 12.5';

/** A percentage from 0 to 100, exact, in parts per million. */
export function percentColumn(header: string): Column<PartsPerMillion | null> {
  return {
    header,
    isMandatory: false,
    spoils: 'cell',
    // It has marks as amounts have them, and falls apart as they do where `12,5` stands in a sheet with commas.
    isMoney: true,
    expected: EXPECTED,
    shape: z
      .int()
      .max(100 * PARTS_IN_PERCENT, 'is more than 100')
      .nullable(),
    parse: parsePercent,
  };
}

/**
 * Read a percentage: `12.5`, `12,5 %`. No thousands mark can stand in one, so any mark stands before decimals. Above 0 and
 * below 1 the sign must be there: spreadsheets also write 15 % as 0.15.
 *
 * @param text - a cell, trimmed and not empty
 * @returns parts per million
 */
export function parsePercent(text: string, { taken }: Pick<CellContext, 'taken'>): CellReading<PartsPerMillion> {
  const match = PERCENT.exec(text);
  const [, whole = '', fraction = '', sign] = match ?? [];
  if (match === null || whole + fraction === '') return refuse(`${quote(text)} is no percentage`, EXPECTED);
  const significant = fraction.replace(/0+$/, '');
  if (significant.length > MOST_DECIMALS) return refuse(`${quote(text)} has too many decimals`, EXPECTED);
  const parts = Number(whole + significant.padEnd(MOST_DECIMALS, '0'));
  if (parts > 0 && parts < PARTS_IN_PERCENT && sign === '') {
    const says = `${quote(text)} can be read as a percentage and as a fraction of 1`;
    return refuse(says, 'a percentage with its sign, such as 0.5 % or 15 %', 'ambiguous-number');
  }
  if (text.includes(',')) taken.add('commas before decimals');
  return took(parts);
}
