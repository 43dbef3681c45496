import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { TakenRead } from '../interval/index.js';
import { type MachineKey, machineKey, sayNumbers } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { likenessOf, type MachineTraits, tellLikeness, traitsOf } from './near-machine.js';

const MOST_FILES = 3;
const MOST_MACHINES = 3;

/**
 * Captures of machines that the roster lacks, one finding a machine: a wrong number on the roster would otherwise hide them.
 * Names the machines of the roster that may be meant: of those no capture is there, and something of the capture is alike.
 * None where there is no roster.
 */
export function findUnlistedCaptures(reads: readonly TakenRead[], roster: Roster): Finding[] {
  const { machines } = roster.books;
  const unlisted = reads.filter(({ machine }) => machine === null);
  if (machines.length === 0 || unlisted.length === 0) return [];
  const seen = new Set(reads.map(({ machine }) => machine?.machine ?? null));
  const missing = machines.filter(({ machine }) => !seen.has(machine)).map((row) => traitsOf(row, roster, [], null));
  return [...groupByMachine(unlisted).values()].map((own) => sayUnlisted(own, missing));
}

function groupByMachine(reads: readonly TakenRead[]): Map<MachineKey | null, TakenRead[]> {
  const groups = new Map<MachineKey | null, TakenRead[]>();
  for (const taken of reads) {
    const key = machineKey(taken);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [taken]);
    else group.push(taken);
  }
  return groups;
}

function sayUnlisted(own: readonly TakenRead[], missing: readonly MachineTraits[]): Finding {
  const { file, read } = own.at(-1)!;
  const numbers = sayNumbers(read.machine).map((number) => printable(number, 40));
  const who =
    numbers.length === 0 ? 'a machine that gives no number of its own' : `the machine with ${numbers.join(' and ')}`;
  const captures = own.length === 1 ? '1 capture is' : `${own.length} captures are`;
  const message = `${captures} of ${who}, which is not on the roster: ${listFiles(own)}.${tellMeant(own.at(-1)!, missing)}`;
  return makeFinding('unknown-machine', message, {
    file,
    advice: 'Correct its asset or serial number on the roster, or add the machine there.',
  });
}

function listFiles(own: readonly TakenRead[]): string {
  const files = [...new Set(own.map(({ file }) => file))].map((file) => printable(file));
  const more = files.length - MOST_FILES;
  return more > 0 ? `${files.slice(0, MOST_FILES).join(', ')} and ${more} more` : files.join(', ');
}

/** The machines of the roster that may be meant, those first for which most speaks. */
function tellMeant({ read }: TakenRead, missing: readonly MachineTraits[]): string {
  const fits = missing
    .flatMap((traits) => {
      const likeness = likenessOf(read, traits);
      return likeness === null ? [] : [{ name: printable(traits.row.machine, 40), reasons: tellLikeness(likeness) }];
    })
    .sort((a, b) => b.reasons.length - a.reasons.length);
  const best = fits.filter(({ reasons }) => reasons.length === fits[0]!.reasons.length);
  // What many have in common tells none of them apart.
  if (best.length === 0 || best.length > MOST_MACHINES) return '';
  const names = best.map(({ name, reasons }) => `${name} (the capture ${reasons.join(' and ')})`);
  return ` It may be ${names.join(' or ')}: no capture of ${best.length === 1 ? 'that one' : 'these'} is here.`;
}
