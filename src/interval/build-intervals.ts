import { type Finding, makeFinding, printable, worstSeverity } from '../findings/index.js';
import { machineKey } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { buildInterval } from './build-interval.js';
import { mergeDuplicates } from './duplicates.js';
import { orderReads } from './eras.js';
import type { Gap, Interval, Intervals } from './interval.js';
import { judgeConnection } from './judge-connection.js';
import { mirrorCredits } from './mirror-credits.js';
import type { PlacedRead } from './step.js';
import { placeIn, type TakenRead } from './taken-read.js';

/**
 * Any number of reads of any machines in, in any order: duplicates set aside, the rest ordered machine by machine, and
 * every pair of consecutive reads out as an interval. What is in no interval is said in the findings.
 */
export function buildIntervals(reads: readonly TakenRead[], roster: Roster): Intervals {
  const built = buildEach(reads, roster);
  return { ...built, intervals: mirrorCredits(built.intervals) };
}

/** The same, each interval by itself: what others beside it show of a customer's credit is not looked at. */
export function buildEach(reads: readonly TakenRead[], roster: Roster): Intervals {
  const findings: Finding[] = [];
  const groups = mergeDuplicates(reads);
  const usable = groups.flatMap(({ kept, duplicates }) => {
    for (const duplicate of duplicates) findings.push(sayDuplicate(kept, duplicate));
    if (kept.faults.length === 0) return [kept];
    findings.push(sayUnusable(kept));
    return [];
  });
  const machines = new Map<string, TakenRead[]>();
  const intervals: Interval[] = [];
  const gaps: Gap[] = [];
  for (const [key, group] of groupByMachine(usable, findings)) {
    const eras = orderReads(group);
    machines.set(key, eras.flat());
    for (const [i, era] of eras.entries()) {
      const before = i === 0 ? null : eras[i - 1]!;
      for (const [j, to] of era.entries()) {
        const from = j > 0 ? era[j - 1]! : before?.at(-1);
        if (from === undefined) continue;
        const obstacle = judgeConnection(from, to, j > 0 || before === null ? null : { before, era });
        if (obstacle === null) {
          intervals.push(buildInterval(from, to, roster));
          continue;
        }
        gaps.push({ from, to, finding: obstacle });
        findings.push(obstacle);
      }
    }
  }
  return { intervals, gaps, groups, findings, machines };
}

function groupByMachine(reads: readonly TakenRead[], findings: Finding[]): Map<string, TakenRead[]> {
  const groups = new Map<string, TakenRead[]>();
  for (const taken of reads) {
    const key = machineKey(taken);
    if (key === null) {
      const message =
        'The read names no machine (no asset, serial or board number other than zeros), so it belongs to no interval.';
      findings.push(makeFinding('unknown-machine', message, placeIn(taken, null)));
      continue;
    }
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [taken]);
    else group.push(taken);
  }
  return groups;
}

/** What is said of a read that came before. */
export function sayDuplicate(kept: PlacedRead, duplicate: PlacedRead): Finding {
  return makeFinding('duplicate-read', `The same read as in ${printable(kept.file, 200)}; it counts once.`, {
    ...placeIn(duplicate, null),
    related: [placeIn(kept, null)],
  });
}

/** What is said of a read that must not be used for accounts. */
export function sayUnusable(taken: PlacedRead): Finding {
  const codes = [...new Set(taken.faults.map(({ code }) => code))].join(', ');
  return makeFinding('capture-unusable', `The read has faults (${codes}) and is left out of all accounts.`, {
    ...placeIn(taken, null),
    severity: worstSeverity(taken.faults) === 'fault' ? 'fault' : 'doubt',
  });
}
