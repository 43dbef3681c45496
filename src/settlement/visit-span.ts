import type { CountRow, LocalDateTime } from '../model/index.js';

/** Between which moments a visit was; both the same where it is known. */
export interface Span {
  readonly earliest: LocalDateTime;
  readonly latest: LocalDateTime;
}

/**
 * When a visit was, by its sheet and its capture: the sheet's time, and the capture's where that is of the sheet's date (a
 * clock can be wrong, a capture come late). Neither: any moment of the sheet's date. Without a bag the capture's alone.
 *
 * @param counts - the rows of the sheet that claim the visit
 * @param times - of its capture; empty where nothing is known
 */
export function spanOf(counts: readonly CountRow[], times: readonly LocalDateTime[]): Span {
  const moments = counts.flatMap(({ visitedAt: { date, time } }) => {
    const said = time === null ? [] : [`${date}T${time}`];
    const own = [...said, ...times.filter((each) => each.startsWith(date))];
    return own.length > 0 ? own : wholeDay(date);
  });
  return hullOf(counts.length > 0 ? moments : times);
}

/** From the earliest moment to the latest; no moments: before everything. */
export function hullOf(moments: readonly LocalDateTime[]): Span {
  const sorted = [...moments].sort();
  return { earliest: sorted[0] ?? '', latest: sorted.at(-1) ?? '' };
}

/** All moments of a date. */
export function wholeDay(date: string): [first: LocalDateTime, last: LocalDateTime] {
  return [`${date}T00:00:00`, `${date}T23:59:59`];
}
