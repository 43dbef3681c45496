import { type Day, joinDays } from '../day/index.js';
import { pushAll } from '../model/index.js';
import { type CsvTable, writeCsvHead, writeCsvRows } from './csv/csv-table.js';
import { attentionRows, DAY_ATTENTION_TABLE } from './csv/day-attention.js';
import { DAY_CASH_TABLE } from './csv/day-cash.js';
import { DAY_REFILL_TABLE } from './csv/day-refill.js';
import { DAY_SALES_TABLE } from './csv/day-sales.js';
import { VISITS_TABLE, visitRows } from './csv/settlement-csv.js';
import { dayToJson } from './json/day-json.js';
import { settlementToJson } from './json/settlement-json.js';
import { writeJson } from './json/write-json.js';
import type { DayJson, StaleDay } from './shapes/day.js';

/** One file of a day's folder, or what is to be added to it. */
export interface DayFile {
  readonly name: string;
  readonly text: string;
}

/**
 * Writes the files of a day's folder part by part, so that of each part only what has to be looked at is kept until the end.
 *
 * @example
 * const writer = new DayWriter();
 * save(writer.begin());
 * for (const part of parts) {
 *   writer.add(part);
 *   append(writer.rows(part));
 * }
 * const { files, day } = writer.end();
 */
export class DayWriter {
  readonly #parts: Day[] = [];
  readonly #settlements: DayJson['settlements'] = [];

  /** The heads of the tables. A table without rows is a head alone, so that a missing file is always an error. */
  begin(): DayFile[] {
    return [
      { name: 'sales.csv', text: writeCsvHead(DAY_SALES_TABLE) },
      { name: 'cash.csv', text: writeCsvHead(DAY_CASH_TABLE) },
      { name: 'settlement.csv', text: writeCsvHead(VISITS_TABLE) },
      { name: 'refill.csv', text: writeCsvHead(DAY_REFILL_TABLE) },
    ];
  }

  /** Keep of a part what the files at the end need, also where its rows are not wanted. */
  add(part: Day): void {
    this.#parts.push({ ...part, sales: [], cash: [], settlements: [], refill: [] });
    // Not the settlements themselves: they hold the reads that they were made from.
    pushAll(this.#settlements, part.settlements.map(settlementToJson));
  }

  /** The rows of one part: what is to be added to each table. */
  rows({ sales, cash, settlements, refill }: Day): DayFile[] {
    return [
      { name: 'sales.csv', text: writeCsvRows(DAY_SALES_TABLE, sales) },
      { name: 'cash.csv', text: writeCsvRows(DAY_CASH_TABLE, cash) },
      { name: 'settlement.csv', text: writeCsvRows(VISITS_TABLE, settlements.flatMap(visitRows)) },
      { name: 'refill.csv', text: writeCsvRows(DAY_REFILL_TABLE, refill) },
    ];
  }

  /**
   * The files that need the whole day, and the day itself without its rows and settlements.
   *
   * @param staleDays - other days whose tables are to be made again
   * @throws RangeError when there was no part, or parts were of different days
   */
  end(staleDays: readonly StaleDay[] = []): { readonly files: DayFile[]; readonly day: Day } {
    const day = joinDays(this.#parts);
    const json: DayJson = { ...dayToJson(day, staleDays), settlements: this.#settlements };
    const attention = attentionRows(day.attention);
    const files = [
      { name: 'attention.csv', text: writeTable(DAY_ATTENTION_TABLE, attention) },
      { name: 'day.json', text: `${writeJson(json)}\n` },
    ];
    return { files, day };
  }
}

/** The files of a day's folder, of a day that is there in one part. */
export function writeDay(day: Day): DayFile[] {
  const writer = new DayWriter();
  const heads = writer.begin();
  writer.add(day);
  const rows = writer.rows(day);
  return [...heads.map(({ name, text }, place) => ({ name, text: text + rows[place]!.text })), ...writer.end().files];
}

function writeTable<Row>(table: CsvTable<Row>, rows: readonly Row[]): string {
  return writeCsvHead(table) + writeCsvRows(table, rows);
}
