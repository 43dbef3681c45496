import {
  type DepositMatch,
  describeRemainder,
  type LocationStatement,
  type RoundedAmount,
  writePercent,
} from '../../accounts/index.js';
import type { Minor } from '../../model/index.js';
import { type CsvCell, csvText } from './csv.js';
import { type CsvTable, csvAmount, csvTime } from './csv-table.js';

const yesNo = (is: boolean): string => (is ? 'yes' : 'no');
const listText = (texts: readonly (string | null)[]): CsvCell =>
  csvText([...new Set(texts.filter((text) => text !== null))].join(' ') || null);

/** The columns whose figures are the least they can have been. */
const listFloors = (floors: Readonly<Record<string, boolean>>): string =>
  Object.entries(floors)
    .filter(([, is]) => is)
    .map(([name]) => name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`))
    .join(' ');
const isAnyFloor = (floors: Readonly<Record<string, boolean>>): boolean => Object.values(floors).includes(true);

const depositMoney =
  (pick: (match: DepositMatch) => Minor | null) =>
  (match: DepositMatch): CsvCell =>
    csvAmount(pick(match), match.decimals);

/** One row for card sales that stand against deposits, or for one without the other. */
export const DEPOSITS_TABLE: CsvTable<DepositMatch> = {
  columns: [
    ['machine', ({ machine }) => csvText(machine)],
    ['location', ({ location }) => csvText(location)],
    ['device', ({ device }) => csvText(device)],
    ['state', ({ state }) => state],
    ['reason', ({ reason }) => reason],
    ['currency', ({ currency }) => currency],
    ['decimals', ({ decimals }) => decimals],
    ['sales_from', ({ from }) => csvTime(from)],
    ['sales_to', ({ to }) => csvTime(to)],
    ['card_sales', depositMoney(({ sales }) => sales)],
    ['card_sales_is_floor', ({ salesIsFloor }) => yesNo(salesIsFloor)],
    ['deposits', ({ deposits }) => deposits.length],
    ['first_deposit', ({ deposits }) => deposits.map(({ date }) => date).sort()[0] ?? null],
    [
      'last_deposit',
      ({ deposits }) =>
        deposits
          .map(({ date }) => date)
          .sort()
          .at(-1) ?? null,
    ],
    ['references', ({ deposits }) => listText(deposits.map(({ reference }) => reference))],
    ['gross', depositMoney(({ gross }) => gross)],
    ['fees', depositMoney(({ fees }) => fees)],
    ['net', depositMoney(({ net }) => net)],
    ['fee_percent', ({ fee }) => fee?.percent ?? null],
    ['difference', depositMoney(({ difference }) => difference)],
    ['difference_is_at_least', ({ isAtLeast }) => yesNo(isAtLeast)],
    ['findings', ({ findings }) => [...new Set(findings.map(({ code }) => code))].join(' ')],
  ],
};

const statementMoney =
  (pick: (statement: LocationStatement) => Minor | null) =>
  (statement: LocationStatement): CsvCell =>
    csvAmount(pick(statement), statement.decimals);
const remainder =
  (pick: (statement: LocationStatement) => RoundedAmount | null) =>
  (statement: LocationStatement): CsvCell => {
    const rounded = pick(statement);
    // In words, for a spreadsheet would take 1/2 for a day of January and -1/2 for a formula.
    return rounded === null ? null : (describeRemainder(rounded) ?? '0');
  };

/** One row a location's statement. */
export const STATEMENTS_TABLE: CsvTable<LocationStatement> = {
  columns: [
    ['location', ({ location }) => csvText(location)],
    ['machines', ({ lines }) => listText(lines.map(({ machine }) => machine.machine))],
    ['from', ({ from }) => csvTime(from)],
    ['to', ({ to }) => csvTime(to)],
    ['currency', ({ currency }) => currency],
    ['decimals', ({ decimals }) => decimals],
    ['cash_sales', statementMoney(({ cashSales }) => cashSales)],
    ['card_sales', statementMoney(({ cardSales }) => cardSales)],
    ['gross', statementMoney(({ gross }) => gross)],
    ['tax', statementMoney(({ tax }) => tax?.amount ?? null)],
    ['tax_remainder', remainder(({ tax }) => tax)],
    ['net', statementMoney(({ net }) => net)],
    ['tax_on_top', statementMoney(({ taxOnTop }) => taxOnTop?.amount ?? null)],
    ['base', statementMoney(({ base }) => base?.amount ?? null)],
    ['commission', statementMoney(({ commission }) => commission?.amount ?? null)],
    ['commission_remainder', remainder(({ commission }) => commission)],
    ['is_floor', ({ floors }) => yesNo(isAnyFloor(floors))],
    ['findings', ({ findings }) => [...new Set(findings.map(({ code }) => code))].join(' ')],
    ['floors', ({ floors }) => listFloors(floors)],
  ],
};

/** One row of {@link STATEMENT_LINES_TABLE}. */
export interface StatementLineRow {
  readonly statement: LocationStatement;
  readonly line: LocationStatement['lines'][number];
}

/** The machines of a statement. */
export function statementLineRows(statement: LocationStatement): StatementLineRow[] {
  return statement.lines.map((line) => ({ statement, line }));
}

/** One row a machine of a statement: what it sold, and at which rates. */
export const STATEMENT_LINES_TABLE: CsvTable<StatementLineRow> = {
  columns: [
    ['location', ({ statement }) => csvText(statement.location)],
    ['machine', ({ line }) => csvText(line.machine.machine)],
    ['from', ({ line }) => csvTime(line.from)],
    ['to', ({ line }) => csvTime(line.to)],
    ['currency', ({ statement }) => statement.currency],
    ['decimals', ({ statement }) => statement.decimals],
    ['cash_sales', ({ statement, line }) => csvAmount(line.cashSales, statement.decimals)],
    ['card_sales', ({ statement, line }) => csvAmount(line.cardSales, statement.decimals)],
    ['sales', ({ statement, line }) => csvAmount(line.sales, statement.decimals)],
    ['is_floor', ({ line }) => yesNo(isAnyFloor(line.floors))],
    ['cash_is_booked_as_card', ({ line }) => yesNo(line.isCashBookedAsCard)],
    ['commission_percent', ({ line }) => writePercent(line.machine.commission)],
    ['commission_base', ({ line }) => line.machine.commissionBase],
    ['tax_percent', ({ line }) => writePercent(line.machine.tax)],
    ['tax_included', ({ line: { machine } }) => (machine.taxIncluded === null ? null : yesNo(machine.taxIncluded))],
    ['floors', ({ line }) => listFloors(line.floors)],
  ],
};
