import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { CountRow, SheetPlace, UnusableCount } from '../model/index.js';
import { listUnusable, type Roster, type SheetReading } from '../sheets/index.js';

/**
 * Machines that the plan or the captures list names but the roster lacks: such rows have no effect, and a misspelt name
 * would otherwise go unseen. One finding a machine and sheet; none where there is no roster.
 */
export function findUnknownMachines(roster: Roster): Finding[] {
  const { plan, capturesList } = roster.books;
  return [plan, capturesList].flatMap((rows) => findIn(rows, roster));
}

/**
 * Machines that the roster lacks among those of refused rows: that may be all there is behind a refusal, since nothing is
 * known of the money of a machine that nobody knows.
 *
 * @param findings - what was said of a sheet's rows
 */
export function findUnknownRefused(findings: readonly Finding[], roster: Roster): Finding[] {
  return findIn(rowsOf(findings), roster);
}

function rowsOf(findings: readonly Finding[]): SheetRow[] {
  return findings.flatMap(({ file, row, machine = null }) =>
    file === undefined || row === undefined ? [] : [{ machine, place: { file, row } }],
  );
}

/** A count sheet as a round takes it. */
export interface TakenCounts {
  readonly rows: readonly CountRow[];
  /** Rows that could not be used, those of machines that the roster lacks among them. */
  readonly unusable: readonly UnusableCount[];
  readonly findings: readonly Finding[];
}

/**
 * The bags of a count sheet, and the rows that give none. A row of a machine that the roster lacks gives none: a misspelt
 * name would otherwise be settled as a machine of which nothing is known. Without a roster every name is taken.
 *
 * @param reading - what `readCounts` gave
 */
export function takeCounts(reading: SheetReading<CountRow>, roster: Roster): TakenCounts {
  const isKnown = ({ machine }: CountRow): boolean =>
    roster.books.machines.length === 0 || roster.machine(machine) !== null;
  const others = reading.rows.filter((row) => !isKnown(row));
  const unknown = findIn([...rowsOf(reading.findings), ...others], roster);
  const unusable = others.map(
    ({ machine, visitedAt, bag, route, driver, place }): UnusableCount => ({
      machine,
      visitedAt,
      bag,
      route,
      driver,
      why: sayUnknown(machine, [place]).message,
      place,
    }),
  );
  return {
    rows: reading.rows.filter(isKnown),
    unusable: [...listUnusable(reading), ...unusable].sort((a, b) => a.place.row - b.place.row),
    findings: [...unknown, ...reading.findings],
  };
}

interface SheetRow {
  readonly machine: string | null;
  readonly place: SheetPlace;
}

function findIn(rows: readonly SheetRow[], roster: Roster): Finding[] {
  if (roster.books.machines.length === 0) return [];
  const unknown = new Map<string, Map<number, SheetPlace>>();
  for (const { machine, place } of rows) {
    if (machine === null || roster.machine(machine) !== null) continue;
    const places = unknown.get(machine);
    if (places === undefined) unknown.set(machine, new Map([[place.row, place]]));
    else places.set(place.row, place);
  }
  return [...unknown].map(([machine, places]) => sayUnknown(machine, [...places.values()]));
}

function sayUnknown(machine: string, places: readonly SheetPlace[]): Finding {
  const { file, row } = places[0]!;
  const more = places.length === 2 ? '1 more row' : `${places.length - 1} more rows`;
  const rows = places.length === 1 ? 'The row has' : `This and ${more} of it have`;
  const where = `${printable(file, 200)}, row ${row}, column machine`;
  return makeFinding(
    'unknown-machine',
    `${where}: "${printable(machine)}" is not on the roster; expected a machine of it. ${rows} no effect; all others count.`,
    { file, row, field: 'machine', machine, advice: 'Check how the sheets write its name.' },
  );
}
