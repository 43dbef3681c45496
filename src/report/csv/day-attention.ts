import type { AttentionItem } from '../../attention/index.js';
import { sayCautions } from '../../findings/index.js';
import { csvText } from './csv.js';
import { type CsvTable, csvAmount } from './csv-table.js';

/** One row of {@link DAY_ATTENTION_TABLE}. */
export interface AttentionRow {
  /** From 1, worst first. */
  readonly rank: number;
  readonly item: AttentionItem;
}

/** The rows of a list that is in order. */
export function attentionRows(items: readonly AttentionItem[]): AttentionRow[] {
  return items.map((item, place) => ({ rank: place + 1, item }));
}

/** `attention.csv`: one row a machine and cause. */
export const DAY_ATTENTION_TABLE: CsvTable<AttentionRow> = {
  columns: [
    ['rank', ({ rank }) => rank],
    ['machine', ({ item }) => csvText(item.machine)],
    ['location', ({ item }) => csvText(item.location)],
    ['route', ({ item }) => csvText(item.route)],
    ['driver', ({ item }) => csvText(item.driver)],
    ['severity', ({ item }) => item.severity],
    ['cause', ({ item }) => item.cause],
    ['what', ({ item }) => csvText(item.what)],
    ['at_stake', ({ item }) => csvAmount(item.stake.amount, item.decimals)],
    ['bound', ({ item }) => item.stake.bound],
    ['per_day', ({ item }) => csvAmount(item.stake.perDay, item.decimals)],
    ['currency', ({ item }) => item.currency],
    ['decimals', ({ item }) => item.decimals],
    ['how_estimated', ({ item }) => csvText(item.stake.how)],
    ['todo', ({ item }) => csvText(item.todo)],
    ['cautions', ({ item }) => csvText(sayCautions(item.cautions).join(' '))],
    ['codes', ({ item }) => item.codes.join(' ')],
    ['files', ({ item }) => csvText(filesOf(item).join(' '))],
  ],
};

function filesOf({ findings }: AttentionItem): string[] {
  return [...new Set(findings.map(({ file }) => file))].filter((file) => file !== undefined);
}
