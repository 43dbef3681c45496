import type { SegmentId } from '../dictionary/index.js';
import { SEGMENT } from '../dictionary/index.js';
import { adviseAtCabinet, type Finding, type FindingDetail, makeFinding, printable } from '../findings/index.js';
import type { Difference } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/**
 * Findings about single counters: rolled over, gone back, gone missing, or not to be told. What many counters share is said
 * once: a machine with 45 columns must not say a thing 45 times.
 */
export function judgeCounters(pair: ReadPair, differences: readonly Difference[]): Finding[] {
  const told = (matches: (one: Difference) => boolean, keyOf: (one: Difference) => string, say: Say): Finding[] =>
    groupBy(differences.filter(matches), keyOf).map((same) => say(pair, same));
  return [
    ...told(({ modulus }) => modulus !== null, byElement, sayRollOver),
    ...(pair.isReversed ? [] : told(({ why }) => why === 'backward', byElement, sayBackward)),
    ...told(({ why }) => why === 'renumbered', byElement, sayRenumbered),
    ...told(({ why, basis }) => why === 'absent-now' && basis !== 'restart', bySegment, sayAbsentNow),
    ...told(({ why, basis }) => why === 'absent-before' && basis !== 'restart', bySegment, sayAbsentBefore),
    ...told(({ why }) => why === 'reset-not-known', together, sayUnclearReset),
    ...told(({ basis, floor, why }) => basis === 'interval' && floor && why === null, together, sayFloor),
  ];
}

type Say = (pair: ReadPair, same: readonly Difference[]) => Finding;

const byElement = ({ element }: Difference): string => element.name;
const bySegment = ({ element }: Difference): string => element.segment;
const together = (): string => '';

function groupBy(differences: readonly Difference[], keyOf: (one: Difference) => string): Difference[][] {
  const groups = new Map<string, Difference[]>();
  for (const difference of differences) {
    const key = keyOf(difference);
    const same = groups.get(key);
    if (same === undefined) groups.set(key, [difference]);
    else same.push(difference);
  }
  return [...groups.values()];
}

const MOST_NAMED = 8;

function list(names: readonly string[]): string {
  const different = [...new Set(names)];
  const more = different.length > MOST_NAMED ? ` and ${different.length - MOST_NAMED} more` : '';
  return `${different.slice(0, MOST_NAMED).join(', ')}${more}`;
}

/** The columns that the counters are of; empty for counters of the whole machine. */
function columnsOf(same: readonly Difference[]): string {
  const names = same.flatMap(({ column }) => (column === null ? [] : printable(column, 20)));
  if (names.length === 0) return '';
  return `${new Set(names).size === 1 ? 'column' : 'columns'} ${list(names)}`;
}

/** One counter in words, with the columns it is about. */
function counter(same: readonly Difference[]): string {
  const { name, meaning } = same[0]!.element;
  const columns = columnsOf(same);
  return `${name}, ${meaning}${columns === '' ? '' : ` (${columns})`}`;
}

/** The counters of one segment in words. */
function segment(same: readonly Difference[]): string {
  const id = same[0]!.element.segment as SegmentId;
  const parts = [SEGMENT[id].title, columnsOf(same)].filter((part) => part !== '');
  return `${list(same.map(({ element }) => element.name))} (${parts.join('; ')})`;
}

function detailFor(pair: ReadPair, same: readonly Difference[]): FindingDetail {
  const { element, column } = same[0]!;
  return baseDetail(pair, element.name, column);
}

/** Where the counter stood; of several columns the first one's figures are told, and that is said. */
function figures(same: readonly Difference[]): string {
  const { from, to, column } = same[0]!;
  const where = same.length > 1 ? ` in column ${printable(column ?? '', 20)}` : '';
  return from === null ? `at ${to}${where}` : `from ${from} to ${to}${where}`;
}

function sayRollOver(pair: ReadPair, same: readonly Difference[]): Finding {
  const message = `${counter(same)}: it ran past its last digit, ${figures(same)}, and started again; ${same[0]!.modulus} was added.`;
  return makeFinding('counter-rollover', message, detailFor(pair, same));
}

function sayBackward(pair: ReadPair, same: readonly Difference[]): Finding {
  const { from, to } = same[0]!;
  const isDown = from !== null && to !== null && to < from;
  const what = isDown ? `it went down, ${figures(same)}, and no cause was found` : `it stands ${figures(same)}`;
  const message = `${counter(same)}: ${what}. Its figure is left out.`;
  const advice = adviseAtCabinet('Read the machine again and compare; if it stays so, have the board looked at.');
  return makeFinding('counter-backward', message, { ...detailFor(pair, same), ...advice });
}

function sayRenumbered(pair: ReadPair, same: readonly Difference[]): Finding {
  const message = `${counter(same)}: it rose, ${figures(same)}, and another went down: columns may have changed numbers. Its figure is left out.`;
  return makeFinding('cross-total', message, { ...detailFor(pair, same), severity: 'doubt' });
}

function sayAbsentNow(pair: ReadPair, same: readonly Difference[]): Finding {
  const message = `${segment(same)}: there at the earlier read and not there now. Absent is not zero: what it would tell is not known.`;
  return makeFinding('absent-counter', message, detailFor(pair, same));
}

function sayAbsentBefore(pair: ReadPair, same: readonly Difference[]): Finding {
  const message = `${segment(same)}: not there at the earlier read, and nothing shows that it stood at 0. What it would tell is not known.`;
  return makeFinding('absent-counter', message, detailFor(pair, same));
}

function sayUnclearReset(pair: ReadPair, same: readonly Difference[]): Finding {
  const names = list(same.map(({ element }) => element.name));
  const message = `There are no lifetime counters to go by, and nothing shows whether the earlier read cleared the interval counters (${names}). What they would tell is not known.`;
  const advice = "A machine profile that says when this machine resets ('resets') settles it.";
  return makeFinding('absent-counter', message, { ...detailFor(pair, same), advice });
}

function sayFloor(pair: ReadPair, same: readonly Difference[]): Finding {
  const isUnseen = pair.reset === 'unseen';
  const why = isUnseen
    ? 'somebody cleared the interval counters in between'
    : 'nothing shows that nobody cleared the interval counters in between';
  const names = list(same.map(({ element }) => element.name));
  const message = `There are no lifetime counters to go by, and ${why}. What they show (${names}) is the least it can have been.`;
  const code = isUnseen ? 'unseen-reset' : 'absent-counter';
  return makeFinding(code, message, { ...detailFor(pair, same), severity: 'doubt' });
}
