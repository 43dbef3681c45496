import { type Finding, makeFinding, printable } from '../findings/index.js';
import { describeMoney, type MachineRow } from '../model/index.js';
import type { StatementLine } from './location-statement.js';
import type { MissingRate } from './statement-amounts.js';

interface Unit {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** What a person should know about a statement before it is paid on. */
export function judgeStatement(
  lines: readonly StatementLine[],
  unit: Unit,
  missing: readonly MissingRate[],
): Finding[] {
  return [
    ...lines.filter(({ sales }) => sales === null).map((line) => sayNotKnown(line, unit)),
    ...lines.filter(({ sales, isFloor }) => sales !== null && isFloor).map(sayFloor),
    ...lines.filter((line) => line.isCashBookedAsCard).map(sayCashAsCard),
    ...missing.map((each) => sayMissing(each, lines)),
  ];
}

/** Machines of one location that take different money. */
export function sayMixedCurrencies({ location, machine, place }: MachineRow, count: number): Finding {
  const name = location === null ? `Machine ${printable(machine)}` : printable(location);
  const message = `${name} has sales in ${count} kinds of money; each has a statement of its own, and nothing is added across them.`;
  return makeFinding('mixed-currency', message, { file: place.file, row: place.row });
}

function sayNotKnown(line: StatementLine, unit: Unit): Finding {
  const { machine, cashSales, cardSales, intervals } = line;
  const name = printable(machine.machine);
  const known = [
    cashSales === null ? '' : `cash sales ${describeMoney(cashSales, unit.decimals, unit.currency)}`,
    cardSales === null ? '' : `card sales ${describeMoney(cardSales, unit.decimals, unit.currency)}`,
  ].filter((part) => part !== '');
  const rest = known.length === 0 ? '' : ` Known of it: ${known.join(', ')}.`;
  const message =
    intervals.length === 0
      ? `Machine ${name} has no two reads in this period, so what it sold is not known, and the statement with it.`
      : `What machine ${name} sold is not known in full, and the statement with it.${rest}`;
  return makeFinding('sales-not-known', message, {
    ...placeOf(line),
    advice:
      intervals.length === 0
        ? 'Take a read, or say in the machine sheet that the machine is not active.'
        : 'Look at the findings on its intervals.',
  });
}

function sayFloor(line: StatementLine): Finding {
  const message = `Machine ${printable(line.machine.machine)} sold at least what is stated: its counters started again, were cleared by somebody else, or a part of the time is in no interval.`;
  return makeFinding('sales-floor', message, placeOf(line));
}

function sayCashAsCard(line: StatementLine): Finding {
  const message = `Machine ${printable(line.machine.machine)} books cash sales as card sales: its card sales hold both, and only the sum of the two tells anything.`;
  return makeFinding('cash-as-card', message, placeOf(line));
}

const MISSING_WORDS: Readonly<Record<MissingRate['field'], string>> = {
  commission_percent: 'has no commission rate, while others at its location have one',
  commission_base: 'has a commission rate, and nothing says whether it is taken of gross or net sales',
  tax_percent: 'has no tax rate, without which tax and net sales are not known',
};

function sayMissing({ machine, field }: MissingRate, lines: readonly StatementLine[]): Finding {
  const line = lines.find((one) => one.machine.machine === machine)!;
  const message = `Machine ${printable(machine)} ${MISSING_WORDS[field]}: what depends on it is not known.`;
  const advice = field === 'commission_base' ? 'Enter gross or net.' : 'Enter the rate; 0 says that there is none.';
  return makeFinding('rate-missing', message, { ...placeOf(line), field, advice });
}

function placeOf({ machine: { machine, place } }: StatementLine): { machine: string; file: string; row: number } {
  return { machine, file: place.file, row: place.row };
}
