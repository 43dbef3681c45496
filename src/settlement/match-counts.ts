import type { CountRow } from '../model/index.js';
import type { MachineReads } from './machine-reads.js';
import { type Claims, matchVisit, type VisitMatch } from './match-visit.js';
import type { VisitRead } from './visit-read.js';

/** A bag and what was found of its capture. */
export interface MatchedCount {
  readonly count: CountRow;
  readonly match: VisitMatch;
}

/**
 * Match all bags of a machine, strongest match first: a capture that one bag names is not equally good for another that
 * only gives a date. The order of the rows makes no difference.
 */
export function matchCounts(
  counts: readonly CountRow[],
  reads: MachineReads,
  windowMinutes: number,
): readonly MatchedCount[] {
  const dates = new Set(counts.map(({ visitedAt }) => visitedAt.date));
  const unclaimed: Claims = { byBag: new Set(), byBagOrTime: new Set(), dates };
  const first = counts.map((count) => ({ count, match: matchVisit(count, reads, windowMinutes, unclaimed) }));
  const claims: Claims = { ...collectClaims(first.map(({ match }) => match)), dates };
  if (claims.byBagOrTime.size === 0) return first;
  return first.map(({ count, match }) => ({
    count,
    match: match.matchedBy === 'bag' ? match : matchVisit(count, reads, windowMinutes, claims),
  }));
}

function collectClaims(matches: readonly VisitMatch[]): Omit<Claims, 'dates'> {
  const byBag = new Set<VisitRead>();
  const byBagOrTime = new Set<VisitRead>();
  for (const { read, matchedBy } of matches) {
    if (read === null || matchedBy === 'date') continue;
    if (matchedBy === 'bag') byBag.add(read);
    byBagOrTime.add(read);
  }
  return { byBag, byBagOrTime };
}
