import { readFileSync } from 'node:fs';
import { takeReads } from '../../src/captures/index.js';
import { type CaptureCheck, checkCapture } from '../../src/checks/index.js';
import { type DayInputs, makeDay } from '../../src/day/index.js';
import { gatherHistories, type TakenRead } from '../../src/interval/index.js';
import type { LocalDate } from '../../src/model/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound } from '../../src/settlement/index.js';
import {
  decimalsFromRoster,
  Roster,
  readCapturesList,
  readCounts,
  readMachines,
  readPlan,
} from '../../src/sheets/index.js';

const DEMO = new URL('../../fixtures/demo/', import.meta.url);

/** All that is known of the demo's route on the evening of a day: an invented scenario whose figures were made. */
export function demoInputs(day: LocalDate): DayInputs {
  const sheet = (file: string) => ({ file, content: readFileSync(new URL(file, DEMO)) });
  const machines = readMachines(sheet('machines.csv')).rows;
  const money = decimalsFromRoster(machines, null);
  const capturesList = readCapturesList(sheet('captures.csv')).rows;
  const roster = new Roster({ machines, plan: readPlan(sheet('plan.csv'), money).rows, capturesList });
  const checks: CaptureCheck[] = [];
  const reads: TakenRead[] = [];
  for (const { file, receivedAt } of capturesList) {
    if (receivedAt!.slice(0, 10) > day) continue;
    const capture = readCaptures(readFileSync(new URL(`captures/${file}`, DEMO)));
    reads.push(...takeReads(file, capture.reads, { roster }));
    if (receivedAt!.slice(0, 10) === day) checks.push(checkCapture(file, capture, { roster }));
  }
  const counts = readCounts(sheet('counts.csv'), money).rows;
  const settlements = settleRound(
    { reads, counts: counts.filter(({ visitedAt }) => visitedAt.date <= day), roster },
    { day },
  );
  return { day, roster, checks, histories: gatherHistories(reads, roster), settlements };
}

export const demoDay = (day: LocalDate) => makeDay(demoInputs(day));
