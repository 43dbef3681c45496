import type { Read } from '../read/index.js';
import { isRise, measureFall } from './lifetime-fall.js';
import { readNumber, type TakenRead } from './taken-read.js';

/** Two reads with different asset numbers. */
export interface AssetChange {
  readonly assets: readonly [before: string, after: string];
}

/** An asset number that was changed on one machine: board and serial number, as far as both say them, are the same. */
export function findRelabelling(from: TakenRead, to: TakenRead): AssetChange | null {
  const change = assetChange(from.read, to.read);
  return change !== null && isSameHardware(from, to) ? change : null;
}

/**
 * Another machine: the asset numbers differ, and nothing shows that only the number was changed. Nothing of one may be
 * taken from the other.
 */
export function isOtherMachine(from: TakenRead, to: TakenRead): boolean {
  return assetChange(from.read, to.read) !== null && !isSameHardware(from, to);
}

function assetChange(earlier: Read, later: Read): AssetChange | null {
  const before = readNumber(earlier.machine.asset);
  const after = readNumber(later.machine.asset);
  return before === null || after === null || before === after ? null : { assets: [before, after] };
}

/** Board and serial number are the same; where only one of them is given, the counters must go on as well. */
function isSameHardware(from: TakenRead, to: TakenRead): boolean {
  const [earlier, later] = [from.read, to.read];
  const pairs = [
    [readNumber(earlier.text('CB101')), readNumber(later.text('CB101'))],
    [readNumber(earlier.machine.serial), readNumber(later.machine.serial)],
  ].filter(([before, after]) => before !== null && after !== null);
  if (pairs.length === 0 || pairs.some(([before, after]) => before !== after)) return false;
  return pairs.length === 2 || isRise(measureFall(from, to));
}
