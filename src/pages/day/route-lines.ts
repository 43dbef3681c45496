import { addAll, type Count, groupBy, type Minor } from '../../model/index.js';
import type { MoneyUnit } from '../../report/text/words.js';
import type { SettlementLine } from '../settlement/index.js';
import type { MachineLine } from './day-digest.js';

/** What machines sold in one currency. */
export interface SalesSum extends MoneyUnit {
  readonly sold: Count | null;
  readonly value: Minor | null;
  readonly isFloor: boolean;
  /** Machines whose sales are not known: they are in neither sum. */
  readonly unknown: Count;
}

/** What the day's page says of a route. */
export interface RouteLine {
  /** Null: the machines of no route. */
  readonly route: string | null;
  readonly expected: Count;
  /** Of the expected: machines of which a capture came. */
  readonly read: Count;
  readonly sums: readonly SalesSum[];
  readonly toLookAt: Count;
  readonly settlements: readonly SettlementLine[];
}

/**
 * The routes of a day, by name, the machines of none last.
 *
 * @param things - how many things there are to look at, by machine
 */
export function lineUpRoutes(
  machines: readonly MachineLine[],
  settlements: readonly SettlementLine[],
  things: ReadonlyMap<string | null, Count>,
): RouteLine[] {
  const byRoute = groupBy(machines, ({ route }) => route);
  const names = new Set([...byRoute.keys(), ...settlements.map(({ route }) => route)]);
  return [...names].toSorted(compareNames).map((route) => {
    const own = byRoute.get(route) ?? [];
    const expected = own.filter(({ isExpected }) => isExpected);
    return {
      route,
      expected: expected.length,
      read: expected.filter(({ reads }) => reads > 0).length,
      sums: sumMachines(own),
      toLookAt: own.reduce((sum, { machine }) => sum + (things.get(machine) ?? 0), 0),
      settlements: settlements.filter((settlement) => settlement.route === route),
    };
  });
}

const collator = new Intl.Collator('en', { numeric: true });

/** By name, numbers in it by their size; null last. */
export function compareNames(a: string | null, b: string | null): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  return collator.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);
}

function sumMachines(machines: readonly MachineLine[]): SalesSum[] {
  const counted = machines.filter(({ intervals }) => intervals > 0);
  const byUnit = groupBy(counted, ({ currency, decimals }) => `${currency} ${decimals}`);
  return [...byUnit.values()].map((own) => {
    const known = own.filter(({ sold, value }) => sold !== null && value !== null);
    const { currency, decimals } = own[0]!;
    return {
      currency,
      decimals,
      sold: known.length === 0 ? null : addAll(known.map(({ sold }) => sold)),
      value: known.length === 0 ? null : addAll(known.map(({ value }) => value)),
      isFloor: known.some(({ isFloor }) => isFloor),
      unknown: own.length - known.length,
    };
  });
}
