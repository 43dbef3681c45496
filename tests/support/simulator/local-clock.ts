import type { LocalDateTime } from '../../../src/model/index.js';

/** Seconds of a zone-less calendar, so that the simulator can do arithmetic on machine-local times. */
export function toSeconds(when: LocalDateTime): number {
  const [year, month, day, hour, minute, second] = when.split(/[-T:]/).map(Number);
  return Date.UTC(year!, month! - 1, day!, hour!, minute!, second!) / 1000;
}

/** The inverse of {@link toSeconds}. */
export function fromSeconds(seconds: number): LocalDateTime {
  return new Date(seconds * 1000).toISOString().slice(0, 19);
}

/** How a maker writes dates and times: `YYMMDD*HHMM`, `YYYYMMDD*HHMMSS`, or `YYMMDD*HHMM*SS` in ID5 alone. */
export type ClockStyle = 'short' | 'long' | 'short-with-seconds';

/** Date and time elements of a moment, and the seconds where they stand apart. */
export function writeClock(seconds: number, style: ClockStyle): readonly [date: string, time: string, seconds: string] {
  const [date, time] = fromSeconds(seconds).split('T') as [string, string];
  const digits = date.replaceAll('-', '');
  if (style === 'long') return [digits, time.replaceAll(':', ''), ''];
  return [digits.slice(2), time.slice(0, 5).replace(':', ''), style === 'short' ? '' : time.slice(6)];
}
