// Sheets: the office's CSV files, as spreadsheets make them.
// In: a file's name and its content, bytes or text; for amounts, what is known of each machine's money.
// Out: typed rows in the sheet's order, and findings that say file, row, column, what was expected and what was done.
// The roster looks up what they say about a machine or a file.
// Must not know: where a sheet was stored, how captures are judged, how findings are shown.
export { readCapturesList } from './captures-list.js';
export { listUnusable, readCounts } from './counts.js';
export { type MachineOfDevice, readDeposits } from './deposits.js';
export { readMachines } from './machines.js';
export { decimalsFromRoster, type MoneyRules } from './money-rules.js';
export { type NumberedMachine, NumberOwners } from './number-owners.js';
export { readPlan } from './plan.js';
export { baseName, type MachineMatch, type OfficeBooks, Roster, type RosterMatch } from './roster.js';
export type { Sheet, SheetReading } from './sheet.js';
