import type { CountRow, MachineNames } from '../../model/index.js';
import type { PlannedMachine } from './plan-day.js';

/** Machines that are looked at together, with the bags counted of them. */
export interface MachineGroup {
  readonly machines: readonly PlannedMachine[];
  readonly counts: readonly CountRow[];
}

/**
 * Put machines into groups, one at least. Where bags were counted, all machines of a route are in one group, and so are all
 * routes that a machine had bags on: a settlement is of a whole route. Else a group has no more than so many.
 *
 * @param names - what sheets may call the machines
 */
export function groupMachines(
  machines: readonly PlannedMachine[],
  names: MachineNames,
  counts: readonly CountRow[] | null,
  machinesAtOnce: number,
): MachineGroup[] {
  const ordered = machines.toSorted(
    (a, b) => compareText(routeName(a.row?.route), routeName(b.row?.route)) || compareText(a.key, b.key),
  );
  if (counts !== null) return groupByRoute(ordered, names, counts);
  const groups: MachineGroup[] = [];
  for (let from = 0; from < ordered.length || from === 0; from += machinesAtOnce) {
    groups.push({ machines: ordered.slice(from, from + machinesAtOnce), counts: [] });
  }
  return groups;
}

/** No route sorts first, and is told from a route without letters. */
const routeName = (route: string | null | undefined): string =>
  route === null || route === undefined ? '' : ` ${route}`;
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function groupByRoute(
  machines: readonly PlannedMachine[],
  names: MachineNames,
  counts: readonly CountRow[],
): MachineGroup[] {
  const routes = new LinkedNames();
  const byKey = new Map(machines.map((machine) => [machine.key, machine]));
  const find = (name: string): PlannedMachine | undefined => byKey.get(names.find(name) ?? '');
  const routeOf = ({ machine, route }: CountRow): string => routeName(route ?? find(machine)?.row?.route);
  for (const count of counts) {
    const machine = find(count.machine);
    if (machine !== undefined) routes.link(routeName(machine.row?.route), routeOf(count));
  }
  const groups = new Map<string, { machines: PlannedMachine[]; counts: CountRow[] }>();
  const groupOf = (route: string) => {
    const name = routes.find(route);
    const known = groups.get(name);
    if (known !== undefined) return known;
    const made = { machines: [], counts: [] };
    groups.set(name, made);
    return made;
  };
  for (const machine of machines) groupOf(routeName(machine.row?.route)).machines.push(machine);
  for (const count of counts) groupOf(routeOf(count)).counts.push(count);
  return groups.size === 0 ? [{ machines: [], counts: [] }] : [...groups.values()];
}

/** Names that are linked, directly or through others, have one name in common. */
class LinkedNames {
  readonly #next = new Map<string, string>();

  find(name: string): string {
    let found = name;
    for (let next = this.#next.get(found); next !== undefined; next = this.#next.get(found)) found = next;
    return found;
  }

  link(a: string, b: string): void {
    const [one, other] = [this.find(a), this.find(b)];
    if (one !== other) this.#next.set(other, one);
  }
}
