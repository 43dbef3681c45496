import type { Day } from '../day/index.js';
import { type CsvTable, writeCsvHead, writeCsvRows } from './csv/csv-table.js';
import { attentionRows, DAY_ATTENTION_TABLE } from './csv/day-attention.js';
import { DAY_CASH_TABLE } from './csv/day-cash.js';
import { DAY_REFILL_TABLE } from './csv/day-refill.js';
import { DAY_SALES_TABLE } from './csv/day-sales.js';
import { VISITS_TABLE, visitRows } from './csv/settlement-csv.js';
import { dayToJson } from './json/day-json.js';
import { writeJson } from './json/write-json.js';

/** One file of a day's folder. */
export interface DayFile {
  readonly name: string;
  readonly text: string;
}

/** The files of a day's folder. A table without rows is a head alone, so that a missing file is always an error. */
export function writeDay(day: Day): DayFile[] {
  return [
    { name: 'attention.csv', text: writeTable(DAY_ATTENTION_TABLE, attentionRows(day.attention)) },
    { name: 'sales.csv', text: writeTable(DAY_SALES_TABLE, day.sales) },
    { name: 'cash.csv', text: writeTable(DAY_CASH_TABLE, day.cash) },
    { name: 'settlement.csv', text: writeTable(VISITS_TABLE, day.settlements.flatMap(visitRows)) },
    { name: 'refill.csv', text: writeTable(DAY_REFILL_TABLE, day.refill) },
    { name: 'day.json', text: `${writeJson(dayToJson(day))}\n` },
  ];
}

function writeTable<Row>(table: CsvTable<Row>, rows: readonly Row[]): string {
  return writeCsvHead(table) + writeCsvRows(table, rows);
}
