import { printable } from '../../findings/index.js';
import type { UnusableCount } from '../../model/index.js';
import type { Settlement, Visit } from '../../settlement/index.js';
import { baseName, type Roster } from '../../sheets/index.js';

/**
 * What keeps a round from being closed, a sentence each; nothing where it can be.
 *
 * A row that could not be used keeps the round of its route open; one that names neither a route nor a machine that is known
 * may be of any round.
 *
 * @param unusable - rows of the day that could not be used
 */
export function listInTheWay(settlement: Settlement, unusable: readonly UnusableCount[], roster: Roster): string[] {
  const rows = unusable.filter((row) => mayBeOf(row, settlement, roster)).map(sayRow);
  const { totals, visits } = settlement;
  const mixedUp = visits.filter(isNotToldApart).map(sayNotToldApart);
  const isNothing = totals.settledVisits === 0 && rows.length === 0 && mixedUp.length === 0;
  return [...rows, ...mixedUp, ...(isNothing ? ['No visit of it is settled.'] : [])];
}

/** Whether a round has nothing to close yet: it is the first that is known of all its machines. */
export function isFirstRound({ visits }: Settlement): boolean {
  return visits.every(({ findings }) => findings.some(({ code }) => code === 'no-opening'));
}

function mayBeOf({ route, machine }: UnusableCount, settlement: Settlement, roster: Roster): boolean {
  const row = machine === null ? null : roster.machine(machine);
  const said = route ?? row?.route ?? null;
  // A machine of no route is of the round of no route; a machine that nobody knows may be anywhere.
  return said === null && row === null ? true : said === settlement.route;
}

function sayRow({ place, machine, why }: UnusableCount): string {
  const of = machine === null ? '' : ` (machine ${printable(machine, 60)})`;
  const problem = /^.*?, row \d+(, column [^:]*)?: (.*?)(;|\. )/.exec(why);
  const what = problem === null ? '' : `: ${problem[1] === undefined ? '' : `${problem[1].slice(2)}, `}${problem[2]}`;
  return printable(`Row ${place.row} of ${baseName(place.file)}${of} could not be used${what}.`, 300);
}

const MIXED_UP: ReadonlySet<string> = new Set(['two-counts', 'two-captures']);

function isNotToldApart({ state, findings }: Visit): boolean {
  const isOpen = state === 'unsettled' || state === 'unread';
  return isOpen && findings.some(({ code }) => MIXED_UP.has(code));
}

function sayNotToldApart({ machine, bag }: Visit): string {
  const what =
    bag === null
      ? `machine ${printable(machine, 60)}`
      : `bag ${printable(bag, 60)} of machine ${printable(machine, 60)}`;
  return `Which count belongs to which visit cannot be told for ${what}.`;
}
