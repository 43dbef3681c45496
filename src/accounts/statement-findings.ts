import { type Finding, makeFinding, printable } from '../findings/index.js';
import { doubtsBehind } from '../interval/index.js';
import { describeMoney, type MachineRow, type Minor } from '../model/index.js';
import { MIDNIGHT_MINUTES, minutesToEndOf } from './days.js';
import type { StatementLine, StatementPeriod } from './location-statement.js';
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
  period: StatementPeriod = {},
): Finding[] {
  return [
    ...lines.filter(({ sales }) => sales === null).map((line) => sayNotKnown(line, unit)),
    ...lines.filter(({ sales, floors }) => sales !== null && floors.sales).map(sayFloor),
    ...lines.filter((line) => line.isCashBookedAsCard).map((line) => sayCashAsCard(line, unit)),
    ...lines.flatMap((line) => sayReadBeforeEnd(line, period)),
    ...lines.flatMap(({ intervals }) => doubtsBehind(intervals)),
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
  const { machine, floors, intervals } = line;
  const name = printable(machine.machine);
  const known = (['cashSales', 'cardSales'] as const).flatMap((figure) => {
    const amount = line[figure];
    if (amount === null) return [];
    const least = floors[figure] ? 'at least ' : '';
    return [`${figure === 'cashSales' ? 'cash' : 'card'} sales ${least}${money(amount, unit)}`];
  });
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

function sayCashAsCard(line: StatementLine, unit: Unit): Finding {
  const { cashInside } = line;
  const name = `Machine ${printable(line.machine.machine)}`;
  const rest = 'an estimate that leaves their sum as it is.';
  const message =
    cashInside === null
      ? `${name} books cash sales as card sales; how much of each there was is not known, only their sum.`
      : cashInside === 0
        ? `${name} may book cash sales as card sales: what it sold for cash and by card is ${rest}`
        : `${name} books cash sales as card sales: ${money(cashInside, unit)} of them are stated as cash sales, ${rest}`;
  return makeFinding('cash-as-card', message, placeOf(line));
}

/** From here on, a whole day or nearly so is in no figure. */
const DAY_MINUTES = 24 * 60 - MIDNIGHT_MINUTES;

/** A machine that was last read before the period ended: what it sold since then belongs to the period of its next read. */
function sayReadBeforeEnd(line: StatementLine, { to: lastDay }: StatementPeriod): Finding[] {
  const { machine, to } = line;
  if (lastDay === undefined || to === null || machine.active === false) return [];
  const minutes = minutesToEndOf(lastDay, to);
  if (minutes <= MIDNIGHT_MINUTES) return [];
  const when = `${to.slice(0, 10)} at ${to.slice(11, 16)}`;
  const message = `Machine ${printable(machine.machine)} was last read on ${when}, before the period ended on ${lastDay}: what it sold after that is not in the statement.`;
  const detail = {
    ...placeOf(line),
    advice: 'Read machines when the period ends; what is not in this statement is in the next.',
  };
  return [makeFinding('read-before-end', message, minutes < DAY_MINUTES ? { ...detail, severity: 'note' } : detail)];
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

const money = (amount: Minor, { decimals, currency }: Unit): string => describeMoney(amount, decimals, currency);

function placeOf({ machine: { machine, place } }: StatementLine): { machine: string; file: string; row: number } {
  return { machine, file: place.file, row: place.row };
}
