import { takeReads } from '../src/captures/index.js';
import { buildIntervals } from '../src/interval/index.js';
import { readCaptures } from '../src/read/index.js';
import { Roster } from '../src/sheets/index.js';
import { makeHistory } from './captures.js';
import { measureByTurns } from './measure.js';
import { writeTable } from './report.js';

const MACHINES = 100;
const READS_OF_EACH = [10, 30, 100];
const ROUNDS = 3;

const roster = new Roster();

/** Bytes to intervals, the way the office asks for them. */
function countIntervals(captures: readonly Uint8Array[]): number {
  const taken = captures.flatMap((bytes, i) =>
    takeReads(`capture-${i}`, readCaptures(bytes).reads, { roster, check: () => [] }),
  );
  return buildIntervals(taken, roster).intervals.length;
}

/** How long the intervals of many captures take, the more reads of the same machines there are. */
export function benchIntervals(): string {
  const histories = READS_OF_EACH.map((reads) => makeHistory(MACHINES, reads));
  const works = histories.map((captures) => ({
    name: captures.length.toLocaleString('en'),
    captures: captures.length,
    run: () => countIntervals(captures),
  }));
  const timings = measureByTurns(works, ROUNDS);
  const rows = timings.map(({ name, bestMicros }, i) => [
    name,
    ((bestMicros * histories[i]!.length) / 1000).toFixed(0),
    bestMicros.toFixed(0),
  ]);
  return `Intervals of ${MACHINES} machines:\n\n${writeTable(['captures', 'ms', 'µs each'], rows)}`;
}
