import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { SheetPlace } from '../model/index.js';
import type { Roster } from '../sheets/index.js';

/**
 * Machines that the plan or the captures list names but the roster lacks: such rows have no effect, and a misspelt name
 * would otherwise go unseen. One finding a machine and sheet; none where there is no roster.
 */
export function findUnknownMachines(roster: Roster): Finding[] {
  const { machines, plan, capturesList } = roster.books;
  if (machines.length === 0) return [];
  return [plan, capturesList].flatMap((rows) => {
    const unknown = new Map<string, SheetPlace[]>();
    for (const { machine, place } of rows) {
      if (machine === null || roster.machine(machine) !== null) continue;
      const places = unknown.get(machine);
      if (places === undefined) unknown.set(machine, [place]);
      else places.push(place);
    }
    return [...unknown].map(([machine, places]) => sayUnknown(machine, places));
  });
}

function sayUnknown(machine: string, places: readonly SheetPlace[]): Finding {
  const { file, row } = places[0]!;
  const rows = places.length === 1 ? 'The row has' : `This and ${places.length - 1} more rows of it have`;
  const where = `${printable(file, 200)}, row ${row}, column machine`;
  return makeFinding(
    'unknown-machine',
    `${where}: "${printable(machine)}" is not on the roster; expected a machine of it. ${rows} no effect; all others count.`,
    { file, row, field: 'machine', machine, advice: 'Check how the sheets write its name.' },
  );
}
