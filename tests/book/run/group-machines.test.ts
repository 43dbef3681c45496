import { describe, expect, it } from 'vitest';
import { groupMachines } from '../../../src/book/run/group-machines.js';
import type { PlannedMachine } from '../../../src/book/run/plan-day.js';
import { rosterOf } from './take-night.js';

const ROSTER = rosterOf('machine,asset,route\nM1,A1,R1\nM2,A2,R2\nM3,A3,R1\nM4,A4,\n');
const planned = (key: string): PlannedMachine => ({
  key,
  row: ROSTER.machine(key.replace('machine ', '')),
  entries: [],
  first: null,
  last: null,
  hasUndated: false,
});
const MACHINES = ['machine M1', 'machine M2', 'machine M3', 'machine M4', 'asset A9'].map(planned);

const named = (size: number): string[][] => groupMachines(MACHINES, size).map((group) => group.map(({ key }) => key));

describe('groupMachines', () => {
  it('makes groups of a size, machines of one route beside each other, those of none first', () => {
    expect(named(2)).toEqual([['asset A9', 'machine M4'], ['machine M1', 'machine M3'], ['machine M2']]);
    expect(named(9)).toEqual([['asset A9', 'machine M4', 'machine M1', 'machine M3', 'machine M2']]);
  });

  it('makes one group at least, though there is no machine', () => {
    expect(groupMachines([], 2)).toEqual([[]]);
  });
});
