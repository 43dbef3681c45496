import { cautionsOf, type Finding, sayCautions } from '../../findings/index.js';
import { buildIntervals, type Interval, type TakenRead, tellStep } from '../../interval/index.js';
import { findingToJson, intervalToJson } from '../../report/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BetweenView } from './messages.js';

/** Nothing happened between reads, or there is but one. */
export const NOTHING_BETWEEN: BetweenView = { intervals: [], findings: [], cautions: [] };

/**
 * What happened between consecutive reads of each machine.
 *
 * @param only - show only what this read begins or ends, and what is said of it
 */
export function describeBetween(reads: readonly TakenRead[], roster: Roster, only?: TakenRead): BetweenView {
  if (reads.length < 2) return NOTHING_BETWEEN;
  const { intervals, findings } = buildIntervals(reads, roster);
  const isShown = ({ from, to }: Interval): boolean => only === undefined || from === only || to === only;
  const isAbout = ({ file, read }: Finding): boolean =>
    only === undefined || (file === only.file && read === only.read.number);
  const shown = intervals.filter(isShown);
  const said = findings.filter(isAbout);
  return {
    intervals: shown.map(intervalToJson),
    findings: said.map(findingToJson),
    cautions: sayCautions(cautionsOf([...said, ...shown.flatMap(tellStep)])),
  };
}
