import { type Finding, makeFinding } from '../findings/index.js';
import { describeMoney } from '../model/index.js';
import { type CrossTotal, computeCrossTotals } from '../read/index.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';
import type { TakenRead } from './taken-read.js';

/**
 * Totals that differ from the sum of their parts, seen over an interval: a difference that stays the same is an old scar
 * (a note); one that grew came about in this interval (a doubt); one by a power of ten is a counter that rolled over.
 * Only lifetime totals: what interval counters cover starts at different moments.
 */
export function compareCrossTotals(pair: ReadPair): Finding[] {
  if (pair.isRestarted) return [];
  const later = lifetimeTotals(pair.to);
  const earlier = lifetimeTotals(pair.from);
  if (!later.some(isOff) && !earlier.some(isOff)) return [];
  const before = new Map(earlier.map((total) => [keyOf(total), total]));
  const findings: Finding[] = [];
  for (const total of later) {
    const same = before.get(keyOf(total));
    const now = total.total - total.parts;
    const then = same === undefined ? null : same.total - same.parts;
    if (now === 0 && (then === null || then === 0)) continue;
    findings.push(describe(pair, total, now, then));
  }
  return findings;
}

const lifetimeTotals = ({ read, profile }: TakenRead): CrossTotal[] =>
  computeCrossTotals(read, profile).filter((total) => total.span === 'init');

const isOff = ({ total, parts }: CrossTotal): boolean => total !== parts;

const keyOf = ({ id, column }: CrossTotal): string => `${id} ${column ?? ''}`;

function describe(pair: ReadPair, total: CrossTotal, now: number, then: number | null): Finding {
  const say = (amount: number): string =>
    total.unit === 'money' ? describeMoney(amount, pair.to.decimals, pair.to.currency) : String(amount);
  const detail = baseDetail(pair, total.totalElement, total.column);
  const where = total.column === null ? '' : ` (column ${total.column})`;
  const what = `The ${total.what}${where} differs from the sum of ${total.partsWhat} by ${say(now)}`;
  if (total.rollOver !== null) {
    return makeFinding('cross-total', `${what}: one of the counters rolled over at ${total.rollOver}.`, detail);
  }
  if (then === null) return makeFinding('cross-total', `${what}; the earlier read does not tell since when.`, detail);
  if (then === now) {
    return makeFinding(
      'cross-total',
      `${what}, as it did at the earlier read: an old scar, not of this interval.`,
      detail,
    );
  }
  const grown = now - then;
  if (isPowerOfTen(Math.abs(grown))) {
    return makeFinding('cross-total', `${what}: one of the counters rolled over in this interval.`, detail);
  }
  return makeFinding('cross-total', `${what}; ${say(Math.abs(grown))} of it came about in this interval.`, {
    ...detail,
    severity: 'doubt',
  });
}

/** 10^k with k = 4…9: what a roll-over takes away from a counter. */
function isPowerOfTen(amount: number): boolean {
  return amount >= 1e4 && amount <= 1e9 && Number.isInteger(Math.log10(amount));
}
