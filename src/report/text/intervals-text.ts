import { cautionsOf, type Finding, worstSeverity } from '../../findings/index.js';
import { type Interval, tellStep } from '../../interval/index.js';
import { machineKey } from '../../model/index.js';
import { layCautions } from './cautions-text.js';
import { layFindings } from './findings-text.js';
import { layInterval } from './interval-text.js';
import type { Style } from './style.js';
import { plural } from './words.js';
import { joinParts } from './wrap-text.js';

/** Intervals as one report. One alone stands for itself; several begin with how many there are and how they look. */
export function layIntervals(intervals: readonly Interval[], general: readonly Finding[], style: Style): string[] {
  const findings = [...general, ...intervals.flatMap(tellStep)];
  return [
    ...joinParts([
      ...(intervals.length === 1 ? [] : [[style.bold(summarize(intervals, general))]]),
      ...intervals.map((interval) => layInterval(interval, style)),
      ...(general.length === 0 ? [] : [layFindings(general, style)]),
    ]),
    ...layCautions(cautionsOf(findings), style),
  ];
}

function summarize(intervals: readonly Interval[], general: readonly Finding[]): string {
  if (intervals.length === 0) return 'No interval: it takes two usable reads of one machine.';
  const machines = new Set(intervals.map(({ to }) => machineKey(to))).size;
  const weights = intervals.map((interval) => worstSeverity(tellStep(interval)));
  const count = (severity: 'fault' | 'doubt'): number => weights.filter((weight) => weight === severity).length;
  const look = [
    count('fault') === 0 ? '' : `${count('fault')} with faults`,
    count('doubt') === 0 ? '' : `${count('doubt')} with doubts`,
  ].filter((part) => part !== '');
  // Of captures, not of the rows of a sheet.
  const unlisted = general.filter(({ code, row }) => code === 'unknown-machine' && row === undefined).length;
  if (unlisted > 0) look.push(`${plural(unlisted, 'machine')} not on the roster, see below`);
  const rest = look.length === 0 ? 'nothing to look at' : look.join(', ');
  return `${plural(intervals.length, 'interval')} of ${plural(machines, 'machine')}: ${rest}.`;
}
