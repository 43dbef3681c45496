import { bytesOf } from '../build-capture.js';
import { collectCaptures } from './demo-captures.js';
import { countBags } from './demo-counts.js';
import { payDeposits } from './demo-deposits.js';
import { defineRoster } from './demo-roster.js';
import { writeCapturesList, writeCounts, writeDeposits, writeMachines, writePlan } from './demo-sheets.js';
import { describeTruth } from './demo-truth.js';
import { playDays } from './play-days.js';

/** All files of the demo, by their path under its folder. The same bytes on every machine and every run. */
export function buildDemo(): ReadonlyMap<string, Uint8Array> {
  const roster = defineRoster();
  const lives = roster.map(playDays);
  const captures = collectCaptures(lives);
  const counts = countBags(lives);
  const { sold, deposits } = payDeposits(lives);
  const texts: [string, string][] = [
    ['machines.csv', writeMachines(roster)],
    ['plan.csv', writePlan(roster)],
    ['counts.csv', writeCounts(counts)],
    ['deposits.csv', writeDeposits(deposits)],
    ['captures.csv', writeCapturesList(captures)],
    ['truth.json', `${JSON.stringify(describeTruth(lives, captures, counts, sold), null, 1)}\n`],
  ];
  return new Map([
    ...texts.map(([path, text]) => [path, bytesOf(text)] as const),
    ...captures.map(({ file, bytes }) => [`captures/${file}`, bytes] as const),
  ]);
}
