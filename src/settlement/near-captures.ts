import { type Likeness, likenessOf, tellLikeness, traitsOf } from '../captures/index.js';
import { printable } from '../findings/index.js';
import { type Histories, isTaken, listReads, type MachineHistory, type PlacedRead } from '../interval/index.js';
import { type CountRow, sayNumbers } from '../model/index.js';
import { joinNames } from './name-bags.js';
import { ReadIndex } from './read-index.js';
import type { VisitContext } from './visit-context.js';
import { makeVisitRead, minuteOf, type VisitRead } from './visit-read.js';

const MOST = 3;

/** Captures of machines that the roster lacks. */
export interface UnlistedCaptures {
  readonly index: ReadIndex;
  /** A capture with its contents; null where they are not at hand. */
  readonly contentsOf: MachineHistory['contentsOf'];
}

/** Captures of machines that the roster lacks; none where there is no roster. */
export function indexUnlisted({ machines, nobodys }: Histories, hasRoster: boolean): UnlistedCaptures {
  const ownerOf = new Map<PlacedRead, MachineHistory | null>();
  for (const history of hasRoster ? machines.values() : []) {
    for (const placed of listReads(history)) if (placed.machine === null) ownerOf.set(placed, history);
  }
  for (const placed of hasRoster ? nobodys : []) if (placed.machine === null) ownerOf.set(placed, null);
  return {
    index: new ReadIndex([...ownerOf.keys()].map((placed) => makeVisitRead(placed, -1, [], undefined))),
    contentsOf: (placed) => (isTaken(placed) ? placed : (ownerOf.get(placed)?.contentsOf(placed) ?? null)),
  };
}

/** A capture that may be of a bag's visit, though by its numbers it is of no machine of the roster. */
interface NearCapture {
  readonly read: VisitRead;
  readonly reasons: readonly string[];
}

/**
 * What captures of machines that are not on the roster stand at the time of a bag without a capture, in a sentence; empty when
 * there are none. A wrong number on the roster would otherwise send somebody to look for what is there. Of a bag known by its
 * date alone something else has to be alike as well.
 */
export function tellNearCaptures(count: CountRow, context: VisitContext): string {
  const found = findNearCaptures(count, context);
  if (found.length === 0) return '';
  const names = found.slice(0, MOST).map(({ read, reasons }) => {
    const numbers = sayNumbers(read.taken.read.machine).map((number) => printable(number, 40));
    const of = numbers.length === 0 ? 'without a number' : `of ${numbers.join(' and ')}`;
    return `${printable(read.taken.file)} ${of} (it ${joinNames(reasons)})`;
  });
  const which = names.length === 1 ? 'A capture of a machine' : 'Captures of machines';
  return ` ${which} that is not on the roster may be it: ${names.join('; ')}.`;
}

function findNearCaptures(count: CountRow, context: VisitContext): NearCapture[] {
  const { date, time } = count.visitedAt;
  const { unlisted, machine, reads, roster, rules } = context;
  const { index } = unlisted;
  if (index.all.length === 0) return [];
  const minute = time === null ? null : minuteOf(`${date}T${time}`);
  const around = minute === null ? index.onDate(date) : index.near(minute, rules.windowMinutes);
  const named = index.named(count);
  const own = reads.usable.all.map(({ taken }) => taken);
  const last = own.at(-1);
  const latest = last === undefined ? null : (reads.contentsOf(last)?.read ?? null);
  const traits = machine === null ? null : traitsOf(machine, roster, own, latest);
  return [...new Set([...named, ...around])]
    .flatMap((read): NearCapture[] => {
      const contents = unlisted.contentsOf(read.taken);
      const likeness: Likeness | null = traits === null || contents === null ? null : likenessOf(contents.read, traits);
      const isNamed = named.includes(read);
      if (minute === null && likeness === null && !isNamed) return [];
      const reasons = [
        ...(isNamed ? ['is named with this bag'] : []),
        ...(around.includes(read) ? [tellWhenTaken(read, minute)] : []),
        ...(likeness === null ? [] : tellLikeness(likeness)),
      ];
      return [{ read, reasons }];
    })
    .sort((a, b) => b.reasons.length - a.reasons.length);
}

function tellWhenTaken(read: VisitRead, minute: number | null): string {
  if (minute === null) return `was taken on that date at ${read.time!.slice(11, 16)}`;
  const minutes = Math.abs(read.minute! - minute);
  if (minutes === 0) return 'was taken at the minute of the visit';
  return `was taken ${minutes} ${minutes === 1 ? 'minute' : 'minutes'} from the visit`;
}
