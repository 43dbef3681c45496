import type { PlannedMachine } from './plan-day.js';

/** Put machines into groups of no more than so many, one group at least: by route, then by key. */
export function groupMachines(machines: readonly PlannedMachine[], machinesAtOnce: number): PlannedMachine[][] {
  const ordered = machines.toSorted(
    (a, b) => compareText(routeName(a.row?.route), routeName(b.row?.route)) || compareText(a.key, b.key),
  );
  const groups: PlannedMachine[][] = [];
  for (let from = 0; from < ordered.length || from === 0; from += machinesAtOnce) {
    groups.push(ordered.slice(from, from + machinesAtOnce));
  }
  return groups;
}

/** No route sorts first, and is told from a route without letters. */
const routeName = (route: string | null | undefined): string =>
  route === null || route === undefined ? '' : ` ${route}`;
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
