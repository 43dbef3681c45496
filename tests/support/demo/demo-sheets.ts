import type { DemoCapture } from './demo-captures.js';
import type { DemoCount } from './demo-counts.js';
import type { DemoDeposit } from './demo-deposits.js';
import { type DemoMachine, DRIVER, ROUTE } from './demo-roster.js';

/** In which the processor pays. */
const CURRENCY = 'EUR';

type Cell = string | number | null;

/** An amount of the demo's currency, which has two decimals. */
function money(amount: number | null): Cell {
  if (amount === null) return null;
  return `${Math.floor(amount / 100)}.${String(amount % 100).padStart(2, '0')}`;
}

const yesNo = (value: boolean): string => (value ? 'yes' : 'no');

/** CSV as RFC 4180 has it: quotes only where a cell needs them. */
function writeSheet(header: string, rows: readonly (readonly Cell[])[]): string {
  const writeCell = (cell: Cell): string => {
    const text = cell === null ? '' : String(cell);
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [header, ...rows.map((row) => row.map(writeCell).join(','))].map((line) => `${line}\r\n`).join('');
}

export function writeMachines(roster: readonly DemoMachine[]): string {
  return writeSheet(
    'machine,asset,serial,location,route,driver,currency,decimals,has_cash,has_bills,has_card,profile,active,commission_percent,commission_base,tax_percent,tax_included',
    roster.map(
      ({
        machine,
        location,
        rates,
        config: {
          identity,
          devices,
          money: { currency, decimals },
        },
      }) => [
        ...[machine, identity.asset, identity.serial, location, ROUTE, DRIVER, currency, decimals],
        ...[yesNo(devices.coins), yesNo(devices.bills), yesNo(devices.card), '', 'yes'],
        ...(rates === undefined
          ? [null, null, null, null]
          : [rates.commission, rates.base, rates.tax, yesNo(rates.isTaxIncluded)]),
      ],
    ),
  );
}

export function writePlan(roster: readonly DemoMachine[]): string {
  const rows = roster.flatMap(({ machine, config, plan }) =>
    config.columns.flatMap(({ column, product, price, par, capacity, cardPrice }) => {
      const row = (planned: number, from: string | null): Cell[] => [
        ...[machine, column, product, money(planned), par, capacity, money(cardPrice), from],
      ];
      const change = plan.get(column);
      if (change === undefined) return [row(price, null)];
      return change.from === null ? [row(change.price, null)] : [row(price, null), row(change.price, change.from)];
    }),
  );
  return writeSheet('machine,column,product,price,par,capacity,card_price,from', rows);
}

export function writeCounts(counts: readonly DemoCount[]): string {
  return writeSheet(
    'machine,visited_at,bag,coins,bills,route,driver,counted_at,note',
    counts.map(({ machine, visitedAt, bag, coins, bills, countedAt, note }) => [
      ...[machine, visitedAt, bag, money(coins), money(bills), ROUTE, DRIVER, countedAt, note],
    ]),
  );
}

export function writeDeposits(deposits: readonly DemoDeposit[]): string {
  return writeSheet(
    'machine,device,date,currency,gross,fees,net,reference',
    deposits.map(({ machine, device, date, gross, fees, reference }) => [
      ...[machine, device, date, CURRENCY, money(gross), money(fees), money(gross - fees), reference],
    ]),
  );
}

export function writeCapturesList(captures: readonly DemoCapture[]): string {
  return writeSheet(
    'file,received_at,reason,signal',
    captures.map(({ file, receivedAt, reason, signal }) => [file, receivedAt.replace('T', ' '), reason, signal]),
  );
}
