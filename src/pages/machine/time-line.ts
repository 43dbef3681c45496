import { scaleLinear } from 'd3-scale';
import { type LocalDateTime, minutesBetween } from '../../model/index.js';
import type { ShownRead } from './shown-reads.js';

/** How a read is drawn: its shape says its verdict. */
export type TimeLineShape = 'sound' | 'doubtful' | 'read-again' | 'used' | 'set-aside';

/** A read on the time line. */
export interface TimeLinePoint {
  /** Its number in the table, from 1. */
  readonly number: number;
  readonly x: number;
  readonly shape: TimeLineShape;
  readonly isService: boolean;
  readonly isClockDoubtful: boolean;
  /** Whether its number has room beside the one before. */
  readonly hasRoom: boolean;
}

/** Time between two reads. */
export interface TimeLineStretch {
  readonly from: number;
  readonly to: number;
  /** Whether whole days in it have no read. */
  readonly isGap: boolean;
}

/** What a time line draws, in units of the drawing. */
export interface TimeLineDrawing {
  readonly points: readonly TimeLinePoint[];
  readonly stretches: readonly TimeLineStretch[];
  readonly from: LocalDateTime;
  readonly to: LocalDateTime;
}

const ROOM_FOR_NUMBER = 14;

/**
 * Lay out reads along a line by their times. Reads of which no time is known are not on it.
 *
 * @param start - where the line starts and ends, in units of the drawing
 * @returns null where fewer than two times are known: then there is no line
 */
export function layOutTimeLine(
  reads: readonly ShownRead[],
  [start, end]: readonly [number, number],
): TimeLineDrawing | null {
  const timed = reads.flatMap((read, place) => (read.at === null ? [] : [{ read, at: read.at, number: place + 1 }]));
  const sorted = timed.toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  const first = sorted[0];
  const last = sorted.at(-1);
  if (first === undefined || last === undefined || first.at === last.at) return null;
  const scale = scaleLinear([0, Math.max(1, minutesBetween(first.at, last.at))], [start, end]);
  let labelled = Number.NEGATIVE_INFINITY;
  const points = sorted.map(({ read, at, number }): TimeLinePoint => {
    const x = Math.round(scale(minutesBetween(first.at, at)) * 10) / 10;
    const hasRoom = x - labelled >= ROOM_FOR_NUMBER;
    if (hasRoom) labelled = x;
    return {
      number,
      x,
      shape: shapeOf(read),
      isService: read.isService === true,
      isClockDoubtful: read.isClockDoubtful,
      hasRoom,
    };
  });
  const stretches = points.slice(1).map((point, place) => ({
    from: points[place]!.x,
    to: point.x,
    isGap: sorted[place + 1]!.read.daysMissed > 0,
  }));
  return { points, stretches, from: first.at, to: last.at };
}

function shapeOf({ use, verdict }: ShownRead): TimeLineShape {
  if (use === 'faulty') return 'read-again';
  if (use === 'set-aside') return 'set-aside';
  return verdict ?? 'used';
}
