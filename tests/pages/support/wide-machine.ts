import { buildCapture } from '../../support/build-capture.js';
import { HOSTILE_TEXTS } from './hostile.js';

/** Hostile texts as a capture can hold them: bytes, without what ends an element or a line. */
export const HOSTILE_NAMES: readonly string[] = HOSTILE_TEXTS.map((text) =>
  text.replace(/[*\r\n]|[^\u0000-\u00ff]/g, ''),
);

/** A capture of the machine with asset A100 at 20:00 on a day of November 2026: so many vends in each of its columns. */
export function wideCapture(
  day: number,
  columns: readonly string[],
  vends: number,
  segments: readonly string[] = [],
): Uint8Array {
  const machine = ['ID1*S1*MODEL-A****A100', 'ID4*2*978*EUR', `ID5*2611${day}*2000`, 'CB1*B1'];
  const groups = columns.flatMap((column) => [`PA1*${column}*150`, `PA2*${vends}*${vends * 150}`]);
  return buildCapture([...machine, ...segments, ...groups]);
}
