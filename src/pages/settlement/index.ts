// Settlement sheets: a settled round → printable pages, one sheet a driver.
// In: a settlement, how it was closed. Out: files, and the line that other pages show. Must not know: the book, the day.
export { outlineSettlement, type SettlementLine, type SheetRound } from './settlement-line.js';
export { makeSettlementPages, type SettlementPages } from './settlement-pages.js';
