import type { LocalDateTime } from '../model/index.js';

/** When a collection was, by two witnesses; null is not known. */
export interface Witnessed {
  /** The sheet's time, or the best there is for the capture. */
  readonly moment: LocalDateTime | null;
  /** The machine's own clock. */
  readonly clock: LocalDateTime | null;
}

/**
 * Collections whose place in the machine's order neither witness bears out: one that comes before is later, or one that
 * comes after is earlier. A single witness against the order is none: captures arrive late, and clocks are set back.
 *
 * @param ordered - in the machine's order
 * @returns the places of those in doubt
 */
export function findDisorder(ordered: readonly Witnessed[]): ReadonlySet<number> {
  const byMoment = findInverted(ordered.map(({ moment }) => moment));
  const byClock = findInverted(ordered.map(({ clock }) => clock));
  const found = new Set<number>();
  for (const [i, { clock }] of ordered.entries()) {
    if (byMoment.has(i) && (clock === null || byClock.has(i))) found.add(i);
  }
  return found;
}

function findInverted(times: readonly (LocalDateTime | null)[]): ReadonlySet<number> {
  const inverted = new Set<number>();
  let latest: LocalDateTime | null = null;
  for (const [i, time] of times.entries()) {
    if (time === null) continue;
    if (latest !== null && time < latest) inverted.add(i);
    else latest = time;
  }
  let earliest: LocalDateTime | null = null;
  for (let i = times.length - 1; i >= 0; i--) {
    const time = times[i]!;
    if (time === null) continue;
    if (earliest !== null && time > earliest) inverted.add(i);
    else earliest = time;
  }
  return inverted;
}
