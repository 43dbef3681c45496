// Report: results → JSON (zod shapes), CSV and text.
// In: checks, intervals, settlements, days, explanations. Out: strings, or lines of text.
// Must not know: files, streams, terminals beyond a style. Null is printed as a dash or left empty, never as 0.
export {
  DEPOSITS_TABLE,
  STATEMENT_LINES_TABLE,
  STATEMENTS_TABLE,
  type StatementLineRow,
  statementLineRows,
} from './csv/accounts-csv.js';
export { CHECK_TABLE, type CheckRow, checkRows } from './csv/check-csv.js';
export { type CsvCell, type CsvText, csvText, writeCsv } from './csv/csv.js';
export { type CsvTable, writeCsvHead, writeCsvRows } from './csv/csv-table.js';
export { type AttentionRow, attentionRows, DAY_ATTENTION_TABLE } from './csv/day-attention.js';
export { DAY_CASH_TABLE } from './csv/day-cash.js';
export { DAY_REFILL_TABLE } from './csv/day-refill.js';
export { DAY_SALES_TABLE } from './csv/day-sales.js';
export { ELEMENTS_TABLE, type ElementRow, elementRows } from './csv/explanation-csv.js';
export { INSTALL_TABLE, type InstallRow, installRows } from './csv/install-csv.js';
export { CASH_TABLE, SALES_TABLE, type SalesRow, salesRows } from './csv/interval-csv.js';
export { BOOK_VISITS_TABLE, type BookVisitRow, VISITS_TABLE, type VisitRow, visitRows } from './csv/settlement-csv.js';
export type { Installation } from './installation.js';
export { depositsToJson, statementToJson } from './json/accounts-json.js';
export { checkToJson } from './json/check-json.js';
export { attentionToJson, dayToJson } from './json/day-json.js';
export { explainedToJson, figureToJson } from './json/explanation-json.js';
export { findingToJson, generalToJson } from './json/finding-json.js';
export { installToJson } from './json/install-json.js';
export { intervalToJson } from './json/interval-json.js';
export { bookSettlementToJson, settlementToJson } from './json/settlement-json.js';
export { writeJson } from './json/write-json.js';
export { makeSchema, type SchemaName, writeSchema } from './make-schema.js';
export type { AdjustmentJson, BookDriverJson, BookFactsJson, CarriedJson, ChangeJson } from './shapes/closing.js';
export type { StaleDay } from './shapes/day.js';
export {
  type AttentionJson,
  type CheckJson,
  type DayJson,
  type DepositsJson,
  type ExplanationJson,
  type FigureJson,
  type FindingJson,
  type InstallJson,
  type IntervalJson,
  type SettlementJson,
  SHAPES,
  type StatementJson,
} from './shapes/index.js';
export { describeStake, layAttention } from './text/attention-text.js';
export { layCautions } from './text/cautions-text.js';
export { layCheck } from './text/check-text.js';
export { ChecksReport } from './text/checks-text.js';
export { layDay } from './text/day-text.js';
export { layDeposits } from './text/deposits-text.js';
export { layExplained, layUnconfirmed } from './text/explanation-text.js';
export { layFindings } from './text/findings-text.js';
export { layInstallation } from './text/install-text.js';
export { describeInterval, layInterval } from './text/interval-text.js';
export { layIntervals } from './text/intervals-text.js';
export { describeSettlement, laySettlement } from './text/settlement-text.js';
export { laySettlements } from './text/settlements-text.js';
export { layStatements } from './text/statements-text.js';
export { PLAIN_STYLE, type Style, TERMINAL_STYLE } from './text/style.js';
export { layTrace } from './text/trace-text.js';
export { plural } from './text/words.js';
export { hangText, joinParts, LINE_WIDTH, wrapText } from './text/wrap-text.js';
export { type DayFile, DayWriter, writeDay } from './write-day.js';
