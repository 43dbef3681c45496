import { ELEMENT, type ElementDef, type ElementName } from '../dictionary/index.js';
import { subtract } from '../model/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';

/**
 * What happened to the interval counters between two reads: the earlier one cleared them and nobody since; it kept them
 * and nobody cleared them since; someone else cleared them (`unseen`); or it cannot be told.
 */
export type ResetState = 'cleared' | 'kept' | 'unseen' | 'not-known';

/** A lifetime counter with the interval counter of the same thing. */
export type CounterPair = readonly [lifetime: ElementDef, interval: ElementDef];

const pair = (lifetime: ElementName, interval: ElementName): CounterPair => [ELEMENT[lifetime], ELEMENT[interval]];

const WITNESSES: readonly CounterPair[] = [
  pair('VA101', 'VA103'),
  pair('VA102', 'VA104'),
  pair('CA201', 'CA203'),
  pair('CA305', 'CA301'),
  pair('CA306', 'CA302'),
  pair('CA307', 'CA303'),
  pair('CA403', 'CA401'),
  pair('DA201', 'DA203'),
];

/**
 * Tell by arithmetic whether the interval counters were cleared. With the lifetime difference D: the interval counter now
 * equal to D means the earlier read cleared it; equal to its earlier value plus D, that it was kept; less than both, that
 * somebody else cleared it. A counter that fits both (it stood at 0) says nothing.
 */
export function judgeReset(earlier: Read, later: Read, profile: Profile | null): ResetState {
  let cleared = 0;
  let kept = 0;
  let unseen = 0;
  const witness = (life0: number | null, life1: number | null, now: number | null, before: number | null): void => {
    const difference = subtract(life1, life0);
    if (difference === null || difference < 0 || now === null || before === null) return;
    // A lifetime counter that stays at 0 while the interval counter moves is one the machine does not keep.
    if (life1 === 0 && now > 0) return;
    const fitsCleared = now === difference;
    const fitsKept = now === before + difference;
    if (fitsCleared && !fitsKept) cleared++;
    else if (fitsKept && !fitsCleared) kept++;
    else if (now < difference) unseen++;
  };
  for (const [life, interval] of WITNESSES) {
    witness(earlier.integer(life), later.integer(life), later.integer(interval), earlier.integer(interval));
  }
  if (cleared + kept + unseen === 0) {
    for (const column of later.columns) {
      const before = earlier.column(column.id);
      if (before === null) continue;
      witness(
        before.number(ELEMENT.PA201),
        column.number(ELEMENT.PA201),
        column.number(ELEMENT.PA203),
        before.number(ELEMENT.PA203),
      );
    }
  }
  if (unseen > 0 && unseen >= cleared && unseen >= kept) return 'unseen';
  if (cleared > kept) return 'cleared';
  if (kept > cleared) return 'kept';
  return fromProfile(earlier, later, profile);
}

function fromProfile(earlier: Read, later: Read, profile: Profile | null): ResetState {
  if (profile?.resets === 'never') return 'kept';
  if (profile?.resets !== 'every-read') return 'not-known';
  const reads = subtract(later.integer('EA309'), earlier.integer('EA309'));
  // Every read clears, and others came between the two.
  return reads !== null && reads > 1 ? 'unseen' : 'cleared';
}
