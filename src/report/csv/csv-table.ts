import { formatMinor, type Minor } from '../../model/index.js';
import { type CsvCell, writeCsv } from './csv.js';

/** A table for spreadsheets: its columns keep their order and names from release to release. */
export interface CsvTable<Item> {
  readonly columns: readonly CsvColumn<Item>[];
}

/** One column, and how its cell comes from an item. */
export type CsvColumn<Item> = readonly [name: string, cell: (item: Item) => CsvCell];

/** The line of column names. */
export function writeCsvHead<Item>({ columns }: CsvTable<Item>): string {
  return writeCsv([columns.map(([name]) => name)]);
}

/** One line an item. */
export function writeCsvRows<Item>({ columns }: CsvTable<Item>, items: readonly Item[]): string {
  return items.length === 0 ? '' : writeCsv(items.map((item) => columns.map(([, cell]) => cell(item))));
}

/** An amount as plain decimal text; in minor units where the decimals are not known (their own column is then empty). */
export function csvAmount(amount: Minor | null, decimals: number | null): string | null {
  return amount === null ? null : formatMinor(amount, decimals ?? 0);
}

/** A local time as spreadsheets take it. */
export function csvTime(when: string | null): string | null {
  return when === null ? null : when.replace('T', ' ');
}
