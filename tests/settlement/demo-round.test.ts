import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { takeReads } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { type Read, readCaptures } from '../../src/read/index.js';
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
const sheet = (file: string) => ({ file, content: readFileSync(new URL(file, DEMO)) });
const truth = JSON.parse(readFileSync(new URL('truth.json', DEMO), 'utf8')) as {
  visits: {
    machine: string;
    state: string;
    bag: string;
    inTheBag: { coins: number; bills: number } | null;
    overShort: { coins: number; bills: number } | null;
  }[];
};

/** Only what keeps a read out of the accounts; the checks themselves have tests of their own. */
const faultsOnly = (read: Read) =>
  read.integrity.state === 'damaged' || !read.isComplete ? [makeFinding('integrity-damaged', 'damaged')] : [];

describe('settling the demo round (an invented scenario whose figures are known because they were made)', () => {
  const machines = readMachines(sheet('machines.csv')).rows;
  const money = decimalsFromRoster(machines, null);
  const roster = new Roster({
    machines,
    plan: readPlan(sheet('plan.csv'), money).rows,
    capturesList: readCapturesList(sheet('captures.csv')).rows,
  });
  const reads = readdirSync(new URL('captures/', DEMO)).flatMap((file) =>
    takeReads(file, readCaptures(readFileSync(new URL(`captures/${file}`, DEMO))).reads, {
      roster,
      check: faultsOnly,
    }),
  );
  const counts = readCounts(sheet('counts.csv'), money);
  const { settlements } = settleRound({ reads, counts: counts.rows, roster }, { day: '2026-11-23' });

  it('makes one settlement, with a visit for every bag', () => {
    expect(settlements).toHaveLength(1);
    expect(settlements[0]!.visits.map((visit) => visit.machine).sort()).toEqual(truth.visits.map((v) => v.machine));
  });

  it.each(truth.visits.map((visit) => [visit.machine, visit] as const))(
    '%s comes out as it was made',
    (machine, known) => {
      const visit = settlements[0]!.visits.find((one) => one.machine === machine)!;
      expect({ state: visit.state, findings: visit.findings.map((f) => f.message) }).toMatchObject({
        state: known.state,
      });
      if (known.state !== 'unsettled' && known.state !== 'unread') {
        expect(visit.expected).toEqual(known.inTheBag);
        expect({ coins: visit.overShort.coins, bills: visit.overShort.bills }).toEqual(known.overShort);
      }
    },
  );
});
