import type { ElementName } from '../dictionary/index.js';
import type { Read } from '../read/index.js';

/** What became of the counters since the last reset between two reads. */
export type ResetBetween = 'cleared' | 'not-cleared' | 'unseen' | 'not-known';

/** A lifetime counter and the one since the last reset that counts the same. */
const PAIRS: readonly (readonly [ElementName, ElementName])[] = [
  ['VA102', 'VA104'],
  ['VA101', 'VA103'],
  ['VA202', 'VA204'],
  ['VA302', 'VA304'],
  ['CA202', 'CA204'],
  ['CA201', 'CA203'],
  ['DA202', 'DA204'],
  ['DB202', 'DB204'],
  ['CA305', 'CA301'],
  ['CA306', 'CA302'],
];
const COLUMN_PAIRS: readonly (readonly [ElementName, ElementName])[] = [
  ['PA201', 'PA203'],
  ['PA301', 'PA303'],
];

/**
 * Whether the first read cleared the counters, by arithmetic: with D the difference of a lifetime counter, its counter
 * since the last reset stands at D when the first read cleared it and nobody since, at D more than before when it did not,
 * and below both when someone else cleared it. Domain rule; counters that tell nothing, or against each other, are not known.
 */
export function findResetBetween(first: Read, second: Read): ResetBetween {
  const told = new Set<ResetBetween>();
  const tell = (verdict: ResetBetween | null): void => {
    if (verdict !== null) told.add(verdict);
  };
  for (const [life, interval] of PAIRS) {
    tell(judgePair(first.integer(life), second.integer(life), first.integer(interval), second.integer(interval)));
  }
  for (const column of second.columns) {
    const before = first.column(column.id);
    if (before === null) continue;
    for (const [life, interval] of COLUMN_PAIRS) {
      tell(judgePair(before.number(life), column.number(life), before.number(interval), column.number(interval)));
    }
  }
  // What was counted only after a reset in between looks as if the first read had cleared it.
  if (told.has('unseen')) told.delete('cleared');
  return told.size === 1 ? [...told][0]! : 'not-known';
}

function judgePair(
  lifeBefore: number | null,
  lifeNow: number | null,
  before: number | null,
  now: number | null,
): ResetBetween | null {
  // With nothing counted before, cleared and not cleared look alike.
  if (lifeBefore === null || lifeNow === null || !before || now === null) return null;
  const difference = lifeNow - lifeBefore;
  if (difference < 0) return null;
  if (now === difference) return 'cleared';
  if (now === before + difference) return 'not-cleared';
  return now < difference ? 'unseen' : null;
}
