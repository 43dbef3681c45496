import { type Finding, makeFinding, worstSeverity } from '../findings/index.js';
import type { Roster } from '../sheets/index.js';
import { buildInterval } from './build-interval.js';
import { mergeDuplicates } from './duplicates.js';
import type { Interval, Intervals } from './interval.js';
import { orderReads } from './order-reads.js';
import { bestTime, machineKey, placeIn, type TakenRead } from './taken-read.js';

/**
 * Any number of reads of any machines in, in any order: duplicates set aside, the rest ordered machine by machine, and
 * every pair of consecutive reads out as an interval. What is in no interval is said in the findings.
 */
export function buildIntervals(reads: readonly TakenRead[], roster: Roster): Intervals {
  const findings: Finding[] = [];
  const usable = mergeDuplicates(reads).flatMap(({ kept, duplicates }) => {
    for (const duplicate of duplicates) findings.push(sayDuplicate(kept, duplicate));
    if (kept.faults.length === 0) return [kept];
    findings.push(sayUnusable(kept));
    return [];
  });
  const machines = new Map<string, TakenRead[]>();
  for (const [key, group] of groupByMachine(usable, findings)) {
    const eras = orderReads(group);
    machines.set(key, eras.flat());
    for (const era of eras) findings.push(...sayOutOfOrder(era));
  }
  const intervals: Interval[] = [];
  for (const ordered of machines.values()) {
    for (let i = 1; i < ordered.length; i++) {
      const from = ordered[i - 1]!;
      const to = ordered[i]!;
      if (isOtherMachine(from, to)) findings.push(sayOtherMachine(from, to));
      else intervals.push(buildInterval(from, to, roster));
    }
  }
  return { intervals, findings, machines };
}

function groupByMachine(reads: readonly TakenRead[], findings: Finding[]): Map<string, TakenRead[]> {
  const groups = new Map<string, TakenRead[]>();
  for (const taken of reads) {
    const key = machineKey(taken);
    if (key === null) {
      const message = 'The read names no machine (no asset, serial or board number), so it belongs to no interval.';
      findings.push(makeFinding('unknown-machine', message, placeIn(taken, null)));
      continue;
    }
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [taken]);
    else group.push(taken);
  }
  return groups;
}

/** Asset numbers that differ under one name of the roster or list: another machine stands there, counters do not go on. */
function isOtherMachine(from: TakenRead, to: TakenRead): boolean {
  const before = from.read.machine.asset;
  const after = to.read.machine.asset;
  return before !== null && after !== null && before !== after;
}

function sayOtherMachine(from: TakenRead, to: TakenRead): Finding {
  const message = `Another machine: asset ${from.read.machine.asset} at the earlier read, ${to.read.machine.asset} at the later. Nothing is taken from one to the other.`;
  return makeFinding('other-machine', message, {
    ...placeIn(to, to.read.place('ID106')),
    related: [placeIn(from, null)],
  });
}

function sayDuplicate(kept: TakenRead, duplicate: TakenRead): Finding {
  return makeFinding('duplicate-read', `The same read as in ${kept.file}; it counts once.`, {
    ...placeIn(duplicate, null),
    related: [placeIn(kept, null)],
  });
}

function sayUnusable(taken: TakenRead): Finding {
  const codes = [...new Set(taken.faults.map(({ code }) => code))].join(', ');
  return makeFinding('capture-unusable', `The read has faults (${codes}) and is left out of all accounts.`, {
    ...placeIn(taken, null),
    severity: worstSeverity(taken.faults) === 'fault' ? 'fault' : 'doubt',
  });
}

/** Reads whose times say another order than the counters do. */
function sayOutOfOrder(era: readonly TakenRead[]): Finding[] {
  const findings: Finding[] = [];
  for (let i = 1; i < era.length; i++) {
    const before = era[i - 1]!;
    const taken = era[i]!;
    const earlier = bestTime(before);
    const later = bestTime(taken);
    if (earlier === null || later === null || later >= earlier) continue;
    const message = `The times say that this read came before the one in ${before.file}; the counters say after, and they are followed.`;
    findings.push(makeFinding('out-of-order', message, { ...placeIn(taken, null), related: [placeIn(before, null)] }));
  }
  return findings;
}
