import {
  add,
  currencyByAlpha,
  type DepositRow,
  formatMinor,
  type LocalDate,
  type Minor,
  subtract,
} from '../model/index.js';
import { type CellContext, type CellReading, took } from './cell-reading.js';
import { type Column, currencyColumn, dateColumn, identifierColumn, moneyColumn, whenColumn } from './columns.js';
import { findRepeats, repeatProblem } from './compare-rows.js';
import type { FinishedRow, ReadRow, RowProblem, RowVerdict, SheetDescription } from './describe-sheet.js';
import type { MoneyRules } from './money-rules.js';
import { parseAmount } from './parse-amount.js';
import type { When } from './parse-when.js';
import { readSheet } from './read-sheet.js';
import type { Sheet, SheetReading } from './sheet.js';

/** Which machine a card device is in, by its serial number; null when that is not known or it is in several. */
export type MachineOfDevice = (device: string) => string | null;

/** A row before its amounts are read: their decimals depend on the row's machine, device and currency. */
interface DepositValues {
  readonly machine: string | null;
  readonly device: string | null;
  /** Processors give times too; the day is what counts. */
  readonly date: When;
  readonly gross: string | null;
  readonly fees: string | null;
  readonly net: string | null;
  readonly currency: string | null;
  readonly reference: string | null;
  readonly periodFrom: LocalDate | null;
  readonly periodTo: LocalDate | null;
}

const AMOUNTS = ['gross', 'fees', 'net'] as const;
type AmountName = (typeof AMOUNTS)[number];
type Amounts = Record<AmountName, Minor | null>;

const describeDeposits = (
  money: MoneyRules,
  machineOfDevice: MachineOfDevice,
): SheetDescription<DepositRow, DepositValues> => ({
  name: 'deposits',
  columns: {
    machine: identifierColumn('machine'),
    device: identifierColumn('device'),
    date: whenColumn('date'),
    gross: rawMoneyColumn('gross'),
    fees: rawMoneyColumn('fees'),
    net: rawMoneyColumn('net'),
    currency: { ...currencyColumn('currency'), spoils: 'row' },
    reference: identifierColumn('reference'),
    periodFrom: dateColumn('period_from'),
    periodTo: dateColumn('period_to'),
  },
  findMissing(names) {
    if (!names.has('machine') && !names.has('device')) return 'machine or device';
    return names.has('gross') || (names.has('fees') && names.has('net')) ? null : 'gross';
  },
  finishRow: (values, _, context) => finishRow(values, context, money, machineOfDevice),
  compareRows,
});

/** A column of amounts whose cells are kept as text for {@link finishRow}. */
function rawMoneyColumn(header: string): Column<string | null> {
  const identifier = identifierColumn(header);
  return { ...identifier, isMoney: true, expected: moneyColumn(header).expected, parse: (text) => took(text) };
}

/**
 * Read the processor's deposits: what was paid out by machine or card device, amounts in minor units of the machine's
 * currency, or of the row's own where it names one. Each row gives at least two of gross, fees and net; where it gives all
 * three, gross − fees = net is held to the last minor unit, and a row that does not add up is kept with a doubt. Fees written
 * with a minus are taken as kept back where the row adds up that way.
 *
 * @param sheet - CSV as a spreadsheet makes it
 * @param money - decimals and currency of each machine; see `decimalsFromRoster`
 * @param machineOfDevice - for rows that name only a card device; without it their decimals must come from elsewhere
 * @returns rows in the sheet's order, with findings for everything else; never throws for what the sheet holds
 */
export function readDeposits(
  sheet: Sheet,
  money: MoneyRules,
  machineOfDevice: MachineOfDevice = () => null,
): SheetReading<DepositRow> {
  return readSheet(sheet, describeDeposits(money, machineOfDevice), money);
}

function finishRow(
  values: DepositValues,
  context: CellContext,
  money: MoneyRules,
  machineOfDevice: MachineOfDevice,
): FinishedRow<DepositRow> {
  const { machine, device, reference, periodFrom, periodTo } = values;
  const { date } = values.date;
  if (machine === null && device === null) return refuseRow('names neither machine nor device', 'at least one of them');
  if ((periodFrom ?? '') > (periodTo ?? date) || (periodTo ?? '') > date) {
    const says = 'has a period that runs backward or ends after the deposit';
    return refuseRow(says, 'period_from, period_to and date in this order');
  }
  const unit = findUnit(values, money, machineOfDevice);
  if (unit.decimals === null) {
    const says = 'cannot be read, since the decimals of its money are not known';
    return refuseRow(says, 'a currency in the row, or the machine with its currency or decimals in the roster');
  }
  const { amounts, problems } = readAmounts(values, { ...context, currency: unit.currency }, unit.decimals);
  if (problems.length > 0) return { row: null, problems };
  const { gross, fees, net } = completeAmounts(amounts, context);
  if (gross === null) return refuseRow('gives no gross, nor fees and net that make it', 'gross, fees and net');
  const mismatch = findMismatch({ gross, fees, net });
  const { currency, decimals } = unit;
  const row = {
    machine,
    device,
    date,
    gross,
    fees,
    net,
    mismatch,
    currency,
    decimals,
    reference,
    periodFrom,
    periodTo,
  };
  return { row, problems: mismatch === null ? [] : [sayMismatch(row)] };
}

function refuseRow(says: string, expected: string): FinishedRow<DepositRow> {
  return { row: null, problems: [{ code: 'bad-row', says, expected, spoils: 'row' }] };
}

interface Unit {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** The money of a row: its own currency, else that of its machine, else that of the machine its device is in. */
function findUnit(
  { machine, device, currency }: DepositValues,
  money: MoneyRules,
  machineOfDevice: MachineOfDevice,
): Unit {
  const owner = machine ?? machineOfDevice(device!);
  const own = owner === null ? null : money.currencyOf(owner);
  const decimals = owner === null ? null : money.decimalsOf(owner);
  if (currency === null) return { currency: own, decimals: decimals ?? money.defaultDecimals };
  const isOwn = own === null || own === currency;
  return { currency, decimals: (isOwn ? decimals : null) ?? currencyByAlpha(currency)!.decimals };
}

function readAmounts(
  values: DepositValues,
  context: CellContext,
  decimals: number,
): { amounts: Amounts; problems: RowProblem[] } {
  const amounts: Amounts = { gross: null, fees: null, net: null };
  const problems: RowProblem[] = [];
  for (const name of AMOUNTS) {
    const text = values[name];
    const reading: CellReading<Minor> | null = text === null ? null : parseAmount(text, decimals, context);
    if (reading === null) continue;
    if ('value' in reading) amounts[name] = reading.value;
    else problems.push({ ...reading.refusal, field: name, received: text!, spoils: 'row' });
  }
  return { amounts, problems };
}

/** Fill in the one of three that the other two make, and turn fees that were written with a minus. */
function completeAmounts({ gross, fees, net }: Amounts, { taken }: CellContext): Amounts {
  if (gross !== null && fees !== null && fees < 0 && net === gross + fees) {
    taken.add('fees with a minus as kept back');
    return { gross, fees: -fees, net };
  }
  const missing = [gross, fees, net].filter((amount) => amount === null).length;
  if (missing === 1) taken.add('the one of gross, fees and net that is left empty as the other two make it');
  if (missing !== 1) return { gross, fees, net };
  return { gross: gross ?? add(fees, net), fees: fees ?? subtract(gross, net), net: net ?? subtract(gross, fees) };
}

/** What gross less fees is more than net; null when it adds up, or when not all three are given. */
function findMismatch({ gross, fees, net }: Amounts): Minor | null {
  return subtract(subtract(gross, fees), net) || null;
}

function sayMismatch({ gross, fees, net, decimals }: Omit<DepositRow, 'place'>): RowProblem {
  const [shown, kept, paid, due] = [gross, fees!, net!, gross - fees!].map((amount) => formatMinor(amount, decimals));
  const says = `gross ${shown} less fees ${kept} is ${due}, and net is ${paid}`;
  const done = 'The row is used with its gross; its fees count in no fee rate.';
  return { code: 'deposit-sum', says, expected: due!, received: paid!, field: 'net', spoils: 'nothing', done };
}

/** The same payment entered twice would look like a deposit without sales. */
function compareRows(rows: readonly ReadRow<DepositRow>[]): RowVerdict<DepositRow>[] {
  return findRepeats(rows, ({ cells }) => JSON.stringify(cells)).map(({ first, again: about }) => {
    const says = `is the same as row ${first.row.place.row} in every cell`;
    if (about.row.reference !== null)
      return { about, problem: repeatProblem(`${says}, reference included`, 'reference', first, 'row') };
    return {
      about,
      problem: repeatProblem(`${says} and has no reference`, 'reference', first, 'nothing', 'Both rows are used.'),
    };
  });
}
