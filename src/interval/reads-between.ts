import { ELEMENT, type ElementDef } from '../dictionary/index.js';
import { parseMachineDate, parseMachineTime, type Read } from '../read/index.js';
import type { TakenRead } from './taken-read.js';

/** Whether somebody else read the machine between two captures, as far as the machine says. */
export type ReadsBetween = 'none' | 'some' | 'not-known';

/**
 * Tell whether other reads came between two captures: by the number of reads (EA309, or EA301 where a profile says that it
 * counts all reads), else by the date and time of the read before that the later capture gives (EA305, EA306), else by who
 * took that (EA307): another reader than the earlier capture's own (EA304).
 *
 * @see manual L0190D, p. 42 (EA3)
 */
export function judgeReadsBetween(from: TakenRead, to: TakenRead): ReadsBetween {
  const steps = countReads(from, to);
  // No step, or one back, comes of a maker's own way of counting or of counters that started again: it shows nothing.
  if (steps !== null) return steps === 1 ? 'none' : steps > 1 ? 'some' : 'not-known';
  const stated = stamp(to.read, ELEMENT.EA305, ELEMENT.EA306);
  const own = stamp(from.read, ELEMENT.EA302, ELEMENT.EA303) ?? stamp(from.read, ELEMENT.ID501, ELEMENT.ID502);
  if (stated !== null && own !== null) return stated === own ? 'none' : 'some';
  const [reader, lastReader] = [from.read.text(ELEMENT.EA304), to.read.text(ELEMENT.EA307)];
  return reader !== null && lastReader !== null && reader !== lastReader ? 'some' : 'not-known';
}

/** How many reads the machine counted from one capture to the next; null when it does not say. */
export function countReads(from: TakenRead, to: TakenRead): number | null {
  const counter = to.profile?.ea301 === 'all-reads' ? ELEMENT.EA301 : ELEMENT.EA309;
  const before = from.read.integer(counter);
  const after = to.read.integer(counter);
  return before === null || after === null ? null : after - before;
}

/** Date and time to the minute, as both are given by every maker. */
function stamp(read: Read, date: ElementDef, time: ElementDef): string | null {
  const day = parseMachineDate(read.text(date) ?? '');
  const clock = parseMachineTime(read.text(time) ?? '');
  return day === null || clock === null ? null : `${day}T${clock.slice(0, 5)}`;
}
