import type { LocalDate } from '../model/index.js';
import type { MachineReads } from './machine-reads.js';
import type { VisitRead } from './visit-read.js';

const DAY = 24 * 60;
/** How far apart the hours of daily reads lie (common practice: a modem answers when it can, not to the minute). */
const SPREAD_MINUTES = 30;

/**
 * Whether a capture of unknown reason looks like one of those taken every day: at that hour one was taken the day before or
 * after as well, and that one was of no visit, since nobody collected that day or a capture of another hour is there for it.
 *
 * @param bagDates - the dates of which a bag is on the sheet
 */
export function isDailyRead(read: VisitRead, reads: MachineReads, bagDates: ReadonlySet<LocalDate>): boolean {
  const { minute } = read;
  if (read.isService !== null || minute === null) return false;
  const indexes = [reads.usable, reads.faulty];
  const sameHour = [minute - DAY, minute + DAY].flatMap((other) =>
    indexes.flatMap((index) => index.near(other, SPREAD_MINUTES)),
  );
  // Where visits are known to fall into that hour it says nothing.
  if (sameHour.some(({ isService }) => isService === true)) return false;
  return sameHour.some((other) => {
    const date = other.time!.slice(0, 10);
    const isAlone = indexes.every((index) =>
      index.onDate(date).every((each) => Math.abs(each.minute! - other.minute!) <= SPREAD_MINUTES),
    );
    return !bagDates.has(date) || !isAlone;
  });
}
