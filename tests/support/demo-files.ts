import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { takeReads } from '../../src/captures/index.js';
import type { TakenRead } from '../../src/interval/index.js';
import { readCaptures } from '../../src/read/index.js';
import { type Settlements, settleRound } from '../../src/settlement/index.js';
import {
  decimalsFromRoster,
  Roster,
  readCapturesList,
  readCounts,
  readMachines,
  readPlan,
  type Sheet,
} from '../../src/sheets/index.js';

/** The folder of the demo, whose figures are known because they were made. */
export const DEMO = fileURLToPath(new URL('../../fixtures/demo', import.meta.url));

const sheet = (file: string): Sheet => ({ file: `${DEMO}/${file}`, content: readFileSync(`${DEMO}/${file}`) });

/** The roster of the demo. */
export function demoRoster(): Roster {
  const machines = readMachines(sheet('machines.csv')).rows;
  return new Roster({
    machines,
    plan: readPlan(sheet('plan.csv'), decimalsFromRoster(machines, null)).rows,
    capturesList: readCapturesList(sheet('captures.csv')).rows,
  });
}

/** The reads of the demo's captures, those of one machine only where a part of their names is given. */
export function demoReads(roster: Roster, part = ''): TakenRead[] {
  const files = readdirSync(`${DEMO}/captures`).filter((file) => file.includes(part));
  return files.sort().flatMap((file) => {
    const path = `${DEMO}/captures/${file}`;
    return takeReads(path, readCaptures(readFileSync(path)).reads, { roster });
  });
}

/** The demo's round, settled. */
export function settleDemo(): Settlements {
  const roster = demoRoster();
  const counts = readCounts(sheet('counts.csv'), decimalsFromRoster(roster.books.machines, null));
  return settleRound({ reads: demoReads(roster), counts: counts.rows, roster }, { day: '2026-11-23' });
}
