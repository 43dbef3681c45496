import type { ElementName } from '../dictionary/index.js';
import { type Finding, makeFinding, printable } from '../findings/index.js';
import { rollOverModulus } from '../profile/index.js';
import { type CrossTotal, computeCrossTotals, findCrossTotalDifferences, type PaymentLine } from '../read/index.js';
import { findRollOver } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';
import type { TakenRead } from './taken-read.js';

/**
 * Totals that differ from the sum of their parts, seen over an interval: a difference that stays the same is an old scar
 * (a note); one that grew came about in this interval (a doubt); one by a power of ten where a counter did run past its last digit is nothing that is missing.
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
    const isOfGone = hasGoneColumn && total.column === null && COLUMN_SUMS.test(total.id);
    const rolledOver = hasRolledOver(pair, total, same ?? null, now - (then ?? 0));
    return [describe(pair, total, now, isOfGone && then !== now ? 'column gone' : then, rolledOver)];
  });
}

const isAnyOff = ({ read, profile }: TakenRead): boolean =>
  findCrossTotalDifferences(read, profile).some((total) => total.span === 'init');

const lifetimeTotals = ({ read, profile }: TakenRead): CrossTotal[] =>
  computeCrossTotals(read, profile).filter((total) => total.span === 'init');

const keyOf = ({ id, column }: CrossTotal): string => `${id} ${column ?? ''}`;

/** Sums over all columns. */
const COLUMN_SUMS = /^(column|test|free)-/;

/**
 * Whether a counter of these ran past its last digit in between, so that total and parts moved apart by just what that takes
 * away: the total, from near 10^k to below it; or one of its parts. Where the earlier read lacks them, whether the later one
 * shows it.
 */
function hasRolledOver(pair: ReadPair, total: CrossTotal, before: CrossTotal | null, moved: number): boolean {
  if (before === null) return total.rollOver !== null;
  const { profile } = pair.to;
  const isPast = (element: ElementName, then: number | null, now: number | null): boolean =>
    then !== null && now !== null && findRollOver(then, now, rollOverModulus(profile, element)) === Math.abs(moved);
  if (moved < 0) return isPast(total.totalElement, before.total, total.total);
  return pairParts(pair, total).some(([element, then, now]) => isPast(element, then, now));
}

type Part = readonly [element: ElementName, then: number | null, now: number | null];

/** What total is the sum of, at both reads. */
function pairParts({ from, to }: ReadPair, { id, column, partElements }: CrossTotal): Part[] {
  const [first] = partElements;
  if (COLUMN_SUMS.test(id)) {
    return to.read.columns.map((later) => [
      first!,
      from.read.column(later.id)?.number(first!) ?? null,
      later.number(first!),
    ]);
  }
  if (column === null) return partElements.map((name) => [name, from.read.integer(name), to.read.integer(name)]);
  const amountOf = (line: PaymentLine): number | null => (id === 'list-count' ? line.count : line.value);
  const earlier = from.read.column(column)?.payments ?? [];
  return (to.read.column(column)?.payments ?? []).map((line) => {
    const same = earlier.find(({ device, list }) => device === line.device && list === line.list);
    return [first!, same === undefined ? null : amountOf(same), amountOf(line)];
  });
}

function describe(
  pair: ReadPair,
  total: CrossTotal,
  now: number,
  then: number | 'column gone' | null,
  hasRolledOver: boolean,
): Finding {
  const detail = baseDetail(pair, total.totalElement, total.column);
  const where = total.column === null ? '' : ` (column ${printable(total.column, 20)})`;
  const what = `The ${total.what}${where} is ${sayDifference(pair, total, now)} the sum of ${total.partsWhat}`;
  const note = (why: string): Finding => makeFinding('cross-total', `${what}${why}.`, detail);
  // What a column that is gone had sold is missing from the sum ever after: that is said of the column.
  if (then === 'column gone') return note(': a column that the earlier read had is gone');
  const moved = Math.abs(now - (then ?? 0));
  if (then === now) {
    const reason = total.rollOver !== null ? ', left by a counter that ran past its last digit' : '';
    return note(`, as at the earlier read: an old scar${reason}, not of this interval`);
  }
  if (hasRolledOver) return note(': one of the counters ran past its last digit, and nothing is missing');
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
