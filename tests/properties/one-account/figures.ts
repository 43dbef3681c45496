import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { SettlementJson } from '../../../src/index.js';
import { readRows } from '../../book/export/read-tables.js';
import type { Outcome } from '../../cli/run-program.js';
import { textOf } from '../../pages/support/look-at-page.js';

type Row = Record<string, string>;
export const csvIn = (path: string): Row[] => parse(readFileSync(path), { columns: true });
export const rowsIn = ({ out }: Outcome): Row[] => parse(out, { columns: true });

/** An amount as a table has it, in minor units; nothing where it is not known. */
const minor = (text: string): string => (text === '' ? '?' : String(Math.round(Number(text.replace('−', '-')) * 100)));
const known = (amount: number | null): string => (amount === null ? '?' : String(amount));
const moment = (time: string | null): string => (time === null ? '?' : time.replace(' ', 'T').slice(0, 16));
const line = (...parts: readonly (string | null)[]): string =>
  parts.map((part) => (part ?? '?').replaceAll(' ', '_')).join(' ');

/** What a program is told of the bags of a day. */
export const bagsOfJson = (settlements: readonly SettlementJson[]): string[] =>
  settlements
    .flatMap(({ visits }) => visits)
    .map(({ machine, bag, visitedAt, driver, state, expected, expectedIsFloor, counted, overShort, sold, value }) => {
      const amounts = [expected.coins, expected.bills, counted.coins, counted.bills, overShort.coins, overShort.bills];
      const figures = [...amounts, overShort.total, sold, value].map(known);
      return line(machine, bag, moment(visitedAt), driver, state, expectedIsFloor ? 'yes' : 'no', ...figures);
    })
    .sort();

const AMOUNTS = ['expected_coins', 'expected_bills', 'counted_coins', 'counted_bills', 'over_short_coins'] as const;

/** The same of a table of visits. */
export const bagsOfRows = (rows: readonly Row[]): string[] =>
  rows
    .map((row) => {
      const figures = [...AMOUNTS, 'over_short_bills', 'over_short_total'].map((name) => minor(row[name]!));
      const [machine, bag, driver] = [row.machine!, row.bag! || null, row.driver! || null];
      const sold = row.sold! || '?';
      const floor = row.expected_is_floor!;
      return line(
        machine,
        bag,
        moment(row.visited_at!),
        driver,
        row.state!,
        floor,
        ...figures,
        sold,
        minor(row.value!),
      );
    })
    .sort();

/** What the pages of a day say of each bag: state, expected, counted, over or short. */
export function bagsOfPages(folder: string): string[] {
  const pages = readdirSync(folder).filter((name) => name.startsWith('settlement-') && name.endsWith('.html'));
  const rows = pages.flatMap((name) => {
    const tables = readFileSync(join(folder, name), 'utf8').split('<table>').slice(1);
    const visits = tables.filter((table) => table.startsWith('<caption>Visits: expected, counted'));
    return visits.flatMap((table) => table.split('</table>')[0]!.split('<tr>').slice(2));
  });
  const lines = rows.map((row) =>
    row
      .split(/<\/t[hd]>/)
      .slice(0, 10)
      .map((cell) => textOf(cell).trim()),
  );
  return [...new Set(lines.map(sayPageRow))].sort();
}

function sayPageRow([machine, bag, state, ...figures]: readonly string[]): string {
  const amounts = figures.map((text) => (text.includes('not known') ? '?' : minor(text.replace('at least ', ''))));
  return line(machine!.split(' ')[0]!, bag!.split(' ')[0]!, state!.replace(/^\W+/, ''), ...amounts);
}

/** A bag's line of {@link bagsOfRows} as pages have it. */
export function asPagesSay(bag: string): string {
  const [machine, label, , , state, , ...figures] = bag.split(' ');
  return line(machine!, label === '?' ? 'no' : label!, state!, ...figures.slice(0, 7));
}

/** What columns sold from read to read, as tables of days and the export have it. */
export const salesOfRows = (rows: readonly Row[]): string[] =>
  rows
    .map((row) => {
      const { machine, column, from, to, sold, value } = row;
      return line(machine!, column!, moment(from!), moment(to!), sold || '?', minor(value!));
    })
    .sort();

export function salesOfFolder(folder: string): string[] {
  const path = join(folder, 'sales.csv');
  return existsSync(path) ? salesOfRows(csvIn(path)) : [];
}

export async function salesOfExport(folder: string): Promise<string[]> {
  const table = join(folder, 'columns');
  if (!existsSync(table)) return [];
  const files = readdirSync(table, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.parquet'));
  const rows = (await Promise.all(files.map((name) => readRows(join(table, name))))).flat();
  return rows
    .map(({ machine, column, from_time: from, to_time: to, sold, value }) =>
      line(String(machine), String(column), timeOf(from), timeOf(to), whole(sold), whole(value)),
    )
    .sort();
}

const timeOf = (time: unknown): string =>
  time instanceof Date ? moment(time.toISOString()) : moment(time === null ? null : String(time));
const whole = (value: unknown): string => (value === null || value === undefined ? '?' : String(value));

/** What each column of each machine sold over all: the same whatever the reads between are called. */
export function sumSales(sales: readonly string[]): string[] {
  const sums = new Map<string, { sold: number | null; value: number | null }>();
  const add = (sum: number | null, text: string): number | null =>
    sum === null || text === '?' ? null : sum + Number(text);
  for (const [machine, column, , , sold, value] of sales.map((each) => each.split(' '))) {
    const key = `${machine} ${column}`;
    const sum = sums.get(key) ?? { sold: 0, value: 0 };
    sums.set(key, { sold: add(sum.sold, sold!), value: add(sum.value, value!) });
  }
  return [...sums].map(([key, { sold, value }]) => line(key, known(sold), known(value))).sort();
}
