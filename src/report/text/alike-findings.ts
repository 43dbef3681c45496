import { compareSeverity, type Finding } from '../../findings/index.js';
import { groupBy } from '../../model/index.js';

/** Findings of one code and weight: those that are shown, and how many there are beside. */
export interface AlikeFindings {
  readonly shown: readonly Finding[];
  readonly rest: number;
}

/** Of findings with one code and weight so many are shown; the rest is counted. */
const MOST_ALIKE = 6;

/** Findings for a person, worst first, many of one kind cut to a few. */
export function groupAlike(findings: readonly Finding[]): AlikeFindings[] {
  const groups = groupBy([...findings].sort(compareSeverity), ({ severity, code }) => `${severity} ${code}`);
  return [...groups.values()].map((group) => {
    const rest = group.length - MOST_ALIKE;
    return rest > 1 ? { shown: group.slice(0, MOST_ALIKE), rest } : { shown: group, rest: 0 };
  });
}
