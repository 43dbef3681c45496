import { type Finding, makeFinding, printable } from '../findings/index.js';
import { type CrossTotal, computeCrossTotals, findCrossTotalDifferences } from '../read/index.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';
import type { TakenRead } from './taken-read.js';

/**
 * Totals that differ from the sum of their parts, seen over an interval: a difference that stays the same is an old scar
 * (a note); one that grew came about in this interval (a doubt); one by a power of ten is a counter that rolled over.
 * Only lifetime totals: what interval counters cover starts at different moments.
 */
export function compareCrossTotals(pair: ReadPair): Finding[] {
  if (pair.restart !== null || !pair.isSameMoney) return [];
  if (!isAnyOff(pair.from) && !isAnyOff(pair.to)) return [];
  const before = new Map(lifetimeTotals(pair.from).map((total) => [keyOf(total), total]));
  const hasGoneColumn = pair.from.read.columns.some(({ id }) => pair.to.read.column(id) === null);
  return lifetimeTotals(pair.to).flatMap((total) => {
    const same = before.get(keyOf(total));
    const now = total.total - total.parts;
    const then = same === undefined ? null : same.total - same.parts;
    if (now === 0 && (then === null || then === 0)) return [];
    const isOfGone = hasGoneColumn && total.column === null && total.id.startsWith('column-');
    return [describe(pair, total, now, isOfGone && then !== now ? 'column gone' : then)];
  });
}

const isAnyOff = ({ read, profile }: TakenRead): boolean =>
  findCrossTotalDifferences(read, profile).some((total) => total.span === 'init');

const lifetimeTotals = ({ read, profile }: TakenRead): CrossTotal[] =>
  computeCrossTotals(read, profile).filter((total) => total.span === 'init');

const keyOf = ({ id, column }: CrossTotal): string => `${id} ${column ?? ''}`;

function describe(pair: ReadPair, total: CrossTotal, now: number, then: number | 'column gone' | null): Finding {
  const detail = baseDetail(pair, total.totalElement, total.column);
  const where = total.column === null ? '' : ` (column ${printable(total.column, 20)})`;
  const what = `The ${total.what}${where} is ${sayDifference(pair, total, now)} the sum of ${total.partsWhat}`;
  const note = (why: string): Finding => makeFinding('cross-total', `${what}${why}.`, detail);
  // What a column that is gone had sold is missing from the sum ever after: that is said of the column.
  if (then === 'column gone') return note(': a column that the earlier read had is gone');
  const moved = Math.abs(now - (then ?? 0));
  if (then === now) {
    const reason = isPowerOfTen(Math.abs(now)) ? ', left by a counter that ran past its last digit' : '';
    return note(`, as at the earlier read: an old scar${reason}, not of this interval`);
  }
  if (isPowerOfTen(moved)) return note(': one of the counters ran past its last digit, and nothing is missing');
  if (then === null) return note('; whether that is old or new the earlier read does not tell');
  const message = `${what}; it was ${sayDifference(pair, total, then)} at the earlier read, so ${sayAmount(pair, total, moved)} came about in this interval.`;
  return makeFinding('cross-total', message, { ...detail, severity: 'doubt' });
}

function sayDifference(pair: ReadPair, total: CrossTotal, difference: number): string {
  if (difference === 0) return 'equal to';
  return `${sayAmount(pair, total, Math.abs(difference))} ${difference > 0 ? 'more' : 'less'} than`;
}

const sayAmount = (pair: ReadPair, { unit }: CrossTotal, amount: number): string =>
  unit === 'money' ? pair.money(amount) : String(amount);

/** 10^k with k = 4…9: what a roll-over takes away from a counter. */
function isPowerOfTen(amount: number): boolean {
  return amount >= 1e4 && amount <= 1e9 && Number.isInteger(Math.log10(amount));
}
