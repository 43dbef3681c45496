import type { PlacedRead, Step } from '../interval/index.js';
import { bestTime, type LocalDateTime, minutesBetween } from '../model/index.js';

/** A read as the settlement looks at it: when it was taken, whether at a visit, and what it may be called. */
export interface VisitRead {
  readonly taken: PlacedRead;
  /** Its place in the machine's order; -1 for one that must not be used for accounts. */
  readonly position: number;
  readonly time: LocalDateTime | null;
  /** The time in whole minutes, as a clock shows it. */
  readonly minute: number | null;
  /** Whether it is known to be a service read (true) or another (false); null where nothing says. */
  readonly isService: boolean | null;
  /** Its file, and those of its copies: a sheet may name any of them. */
  readonly files: readonly string[];
  /** The bags that the captures list puts to it or to its copies. */
  readonly bags: readonly string[];
}

const MINUTE_ZERO = '2000-01-01T00:00:00';

/** Whole minutes since the beginning of 2000, seconds left off as on a clock's face. */
export function minuteOf(time: LocalDateTime): number {
  return minutesBetween(MINUTE_ZERO, `${time.slice(0, 16)}:00`);
}

/**
 * Look at a read the settlement's way.
 *
 * @param copies - other reads with the same content, set aside as duplicates
 * @param next - the interval that begins with it, which shows whether it cleared the counters
 */
export function makeVisitRead(
  taken: PlacedRead,
  position: number,
  copies: readonly PlacedRead[],
  next: Step | undefined,
): VisitRead {
  const time = bestTime(taken);
  const all = [taken, ...copies];
  return {
    taken,
    position,
    time,
    minute: time === null ? null : minuteOf(time),
    isService: isServiceRead(all, next),
    files: all.map(({ file }) => file),
    bags: all.map(({ bag }) => bag).filter((bag) => bag !== null),
  };
}

/**
 * A service read is known from the captures list; else, on a machine that clears its counters on service reads only, from
 * its having cleared them, as the next read shows. Otherwise it is not known, which is no "no".
 */
function isServiceRead(copies: readonly PlacedRead[], next: Step | undefined): boolean | null {
  const reasons = copies.map(({ reason }) => reason).filter((reason) => reason !== null);
  if (reasons.length > 0) return reasons.includes('service');
  if (copies[0]!.profile?.resets !== 'service-read') return null;
  const reset = next?.reset;
  return reset === 'cleared' ? true : reset === 'kept' ? false : null;
}
