import type { Finding } from '../findings/index.js';
import type { Interval } from '../interval/index.js';
import { addAll, bestTime, currencyByAlpha, type LocalDateTime, type MachineRow, type Minor } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import type { LocationStatement, StatementLine, StatementPeriod } from './location-statement.js';
import { type SalesByPayment, salesByPayment } from './sales-by-payment.js';
import { type StatementAmounts, workOutAmounts } from './statement-amounts.js';
import { judgeStatement, sayMixedCurrencies } from './statement-findings.js';

/** In which money a statement is. */
interface Unit {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/**
 * A statement for every location of which the roster states a commission or tax rate, and one for every machine with a rate
 * and no location, in the roster's order.
 *
 * Sales are cash sales plus card sales, as the commission is taken from both (SEM 9900X manual, French edition, p. 18). A
 * machine of the location that has no reads makes the sums not known, unless the roster calls it inactive: a part of the
 * sales is no statement. Each currency has a statement of its own.
 *
 * @param intervals - as `buildIntervals` gives them, machine by machine in order
 * @param period - which of them count; all unless told otherwise
 */
export function stateCommissions(
  intervals: readonly Interval[],
  roster: Roster,
  period: StatementPeriod = {},
): LocationStatement[] {
  const byMachine = new Map<string, Interval[]>();
  for (const interval of intervals) {
    const name = interval.to.machine?.machine;
    if (name === undefined || !mayBeIn(period, interval)) continue;
    const own = byMachine.get(name);
    if (own === undefined) byMachine.set(name, [interval]);
    else own.push(interval);
  }
  return groupByLocation(roster.books.machines).flatMap((machines) => stateLocation(machines, byMachine, period));
}

/** Whether an interval counts, or may count, since the time of its later read is not known. */
function mayBeIn(period: StatementPeriod, { to }: Interval): boolean {
  const day = bestTime(to)?.slice(0, 10);
  return day === undefined || (day >= (period.from ?? '') && day <= (period.to ?? '9'));
}

/** The machines of every location that has a rate; machines without a location stand alone. */
function groupByLocation(machines: readonly MachineRow[]): MachineRow[][] {
  const groups = new Map<string, MachineRow[]>();
  for (const row of machines) {
    const key = JSON.stringify(row.location === null ? [row.machine, 'alone'] : [row.location]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups.values()].filter((group) =>
    group.some(({ commission, tax }) => commission !== null || tax !== null),
  );
}

function stateLocation(
  machines: readonly MachineRow[],
  byMachine: ReadonlyMap<string, readonly Interval[]>,
  period: StatementPeriod,
): LocationStatement[] {
  const units = new Map<string, { unit: Unit; lines: StatementLine[] }>();
  const addLine = (unit: Unit, line: StatementLine): void => {
    const key = JSON.stringify([unit.currency, unit.decimals]);
    const known = units.get(key);
    if (known === undefined) units.set(key, { unit, lines: [line] });
    else known.lines.push(line);
  };
  const unread: MachineRow[] = [];
  for (const machine of machines) {
    const own = byMachine.get(machine.machine) ?? [];
    if (own.length === 0 && machine.active !== false) unread.push(machine);
    for (const [unit, part] of splitByMoney(own)) addLine(unit, makeLine(machine, part, period));
  }
  for (const machine of unread) {
    const known = [...units.values()].find(
      ({ unit }) => unit.currency === machine.currency || machine.currency === null,
    );
    addLine(known?.unit ?? unitOf(machine), makeLine(machine, [], period));
  }
  const mixed = units.size > 1 ? [sayMixedCurrencies(machines[0]!, units.size)] : [];
  return [...units.values()].map(({ unit, lines }) => makeStatement(unit, lines, mixed, period));
}

function splitByMoney(intervals: readonly Interval[]): Map<Unit, Interval[]> {
  const parts = new Map<Unit, Interval[]>();
  for (const interval of intervals) {
    const { currency, decimals } = interval;
    const unit = [...parts.keys()].find((one) => one.currency === currency && one.decimals === decimals);
    if (unit === undefined) parts.set({ currency, decimals }, [interval]);
    else parts.get(unit)!.push(interval);
  }
  return parts;
}

function unitOf({ currency, decimals }: MachineRow): Unit {
  return { currency, decimals: decimals ?? currencyByAlpha(currency ?? '')?.decimals ?? null };
}

function makeLine(machine: MachineRow, intervals: readonly Interval[], period: StatementPeriod): StatementLine {
  const sales = intervals.map(salesByPayment);
  const isUnplaced = isLimited(period) && intervals.some(({ to }) => bestTime(to) === null);
  const isUnknown = intervals.length === 0 || isUnplaced;
  const isPart = hasGap(intervals);
  const sum = (of: (one: SalesByPayment) => Minor | null): Minor | null => (isUnknown ? null : addAll(sales.map(of)));
  return {
    machine,
    from: intervals.length === 0 ? null : bestTime(intervals[0]!.from),
    to: intervals.length === 0 ? null : bestTime(intervals.at(-1)!.to),
    cashSales: sum(({ cash }) => cash),
    cardSales: sum(({ card }) => card),
    sales: sum(({ both }) => both),
    floors: {
      cashSales: isPart || sales.some(({ floors }) => floors.cash),
      cardSales: isPart || sales.some(({ floors }) => floors.card),
      sales: isPart || sales.some(({ floors }) => floors.both),
    },
    isCashBookedAsCard: sales.some(({ isCashBookedAsCard }) => isCashBookedAsCard),
    cashInside: sum(({ cashInside }) => cashInside),
    intervals,
  };
}

const isLimited = ({ from, to }: StatementPeriod): boolean => from !== undefined || to !== undefined;

/** Whether sales between two of the intervals are in neither, as where another machine stood there for a while. */
function hasGap(intervals: readonly Interval[]): boolean {
  return intervals.some(({ from }, i) => i > 0 && from !== intervals[i - 1]!.to);
}

const NOTHING: StatementAmounts = { tax: null, net: null, taxOnTop: null, base: null, commission: null, missing: [] };

function makeStatement(
  unit: Unit,
  lines: readonly StatementLine[],
  mixed: readonly Finding[],
  period: StatementPeriod,
): LocationStatement {
  const gross = addAll(lines.map(({ sales }) => sales));
  const rated = lines.flatMap(({ machine, sales }) => (sales === null ? [] : [{ machine, sales }]));
  const { missing, ...amounts } = gross === null ? NOTHING : workOutAmounts(rated, gross);
  return {
    location: lines[0]!.machine.location,
    ...unit,
    from: earliest(lines.map(({ from }) => from)),
    to: latest(lines.map(({ to }) => to)),
    lines,
    cashSales: addAll(lines.map(({ cashSales }) => cashSales)),
    cardSales: addAll(lines.map(({ cardSales }) => cardSales)),
    gross,
    ...amounts,
    floors: findFloors(lines),
    findings: [...mixed, ...judgeStatement(lines, unit, missing, period)],
  };
}

/** A figure is a floor where it grows with sales that are one. */
function findFloors(lines: readonly StatementLine[]): LocationStatement['floors'] {
  const least = lines.filter(({ floors }) => floors.sales).map(({ machine }) => machine);
  const isTaxed = ({ tax }: MachineRow): boolean => tax !== null && tax > 0;
  const pays = least.some(({ commission }) => commission !== null && commission > 0);
  return {
    cashSales: lines.some(({ floors }) => floors.cashSales),
    cardSales: lines.some(({ floors }) => floors.cardSales),
    gross: least.length > 0,
    tax: least.some((machine) => isTaxed(machine) && machine.taxIncluded !== false),
    net: least.length > 0,
    taxOnTop: least.some((machine) => isTaxed(machine) && machine.taxIncluded === false),
    base: pays,
    commission: pays,
  };
}

type Time = LocalDateTime | null;
const earliest = (times: readonly Time[]): Time => times.filter((time) => time !== null).sort()[0] ?? null;
const latest = (times: readonly Time[]): Time =>
  times
    .filter((time) => time !== null)
    .sort()
    .at(-1) ?? null;
