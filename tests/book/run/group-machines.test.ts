import { describe, expect, it } from 'vitest';
import { groupMachines } from '../../../src/book/run/group-machines.js';
import type { PlannedMachine } from '../../../src/book/run/plan-day.js';
import { type CountRow, MachineNames } from '../../../src/model/index.js';
import { decimalsFromRoster, readCounts } from '../../../src/sheets/index.js';
import { rosterOf } from './take-night.js';

const ROSTER = rosterOf('machine,asset,route\nM1,A1,R1\nM2,A2,R2\nM3,A3,R1\nM4,A4,\n');
const planned = (key: string): PlannedMachine => ({
  key,
  row: ROSTER.machine(key.replace('machine ', '')),
  entries: [],
  first: null,
  hasUndated: false,
});
const MACHINES = ['machine M1', 'machine M2', 'machine M3', 'machine M4', 'asset A9'].map(planned);
const NAMES = new MachineNames();
for (const { key } of MACHINES) NAMES.add(key);

const counts = (...rows: readonly string[]): readonly CountRow[] => {
  const content = Buffer.from(`machine,visited_at,coins,route\n${rows.map((row) => `${row}\n`).join('')}`);
  return readCounts({ file: 'counts.csv', content }, decimalsFromRoster([], 2)).rows;
};

const named = (rows: readonly CountRow[] | null, size = 2): [string[], string[]][] =>
  groupMachines(MACHINES, NAMES, rows, size).map((group) => [
    group.machines.map(({ key }) => key),
    group.counts.map(({ machine }) => machine),
  ]);

describe('groupMachines', () => {
  it('makes groups of a size, machines of one route beside each other', () => {
    expect(named(null)).toEqual([
      [['asset A9', 'machine M4'], []],
      [['machine M1', 'machine M3'], []],
      [['machine M2'], []],
    ]);
    expect(groupMachines([], NAMES, null, 2)).toEqual([{ machines: [], counts: [] }]);
  });

  it('keeps whole routes together where bags were counted, each bag with its machine', () => {
    expect(named(counts('M1,2026-11-01,1.00,', 'M2,2026-11-01,1.00,R2', 'A9,2026-11-01,1.00,'), 1)).toEqual([
      [['asset A9', 'machine M4'], ['A9']],
      [['machine M1', 'machine M3'], ['M1']],
      [['machine M2'], ['M2']],
    ]);
  });

  it('joins routes that a machine had bags on, directly or through others', () => {
    const rows = counts(
      'M1,2026-11-01,1.00,R2',
      'M2,2026-11-01,1.00,R5',
      'M4,2026-11-01,1.00,',
      'X,2026-11-01,1.00,R5',
    );
    expect(named(rows, 1)).toEqual([
      [['asset A9', 'machine M4'], ['M4']],
      [
        ['machine M1', 'machine M3', 'machine M2'],
        ['M1', 'M2', 'X'],
      ],
    ]);
  });

  it('has a group for bags of a route of which there is no machine', () => {
    expect(groupMachines([], NAMES, counts('X,2026-11-01,1.00,R8'), 5).map(({ counts: own }) => own.length)).toEqual([
      1,
    ]);
    expect(groupMachines([], NAMES, counts(), 5)).toEqual([{ machines: [], counts: [] }]);
  });
});
