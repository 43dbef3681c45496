import { describe, expect, it } from 'vitest';
import { type Finding, makeFinding } from '../../src/findings/index.js';
import { RefusedRows } from '../../src/settlement/refused-rows.js';
import { decimalsFromRoster, readCounts } from '../../src/sheets/index.js';
import { M1, makeCount, makeMachine } from './scenario.js';

const DAY = '2026-11-24';
const isMachine = (name: string): boolean => ['M1', 'M2'].includes(name);
const about = (finding: Finding, machine: string, counts = [makeCount('M1', '2026-11-24', { row: 5 })]) =>
  new RefusedRows([finding], [], counts, isMachine).mayHold(machine, DAY)?.row ?? null;
const at = (row: number, machine?: string) => ({
  file: 'counts.csv',
  row,
  ...(machine === undefined ? {} : { machine }),
});

describe('RefusedRows', () => {
  it('holds a refused row against its machine alone', () => {
    const finding = makeFinding('ambiguous-date', '', at(6, 'M1'));
    expect(about(finding, 'M1')).toBe(6);
    expect(about(finding, 'M2')).toBeNull();
  });

  it('takes a row that names no known machine for any of them', () => {
    expect(about(makeFinding('bad-row', '', at(6)), 'M2')).toBe(6);
    expect(about(makeFinding('bad-row', '', at(6, '12,50')), 'M2')).toBe(6);
  });

  it('holds nothing against a row that was used, or is there once more', () => {
    expect(about(makeFinding('bad-cell', '', at(5, 'M1')), 'M1')).toBeNull();
    expect(about(makeFinding('duplicate-row', '', at(6, 'M1')), 'M1')).toBeNull();
    expect(about(makeFinding('sheet-column-unknown', '', at(1)), 'M1')).toBeNull();
    expect(about(makeFinding('sheet-format', '', { file: 'counts.csv' }), 'M1')).toBeNull();
  });

  it('tells rows of two sheets apart', () => {
    expect(about(makeFinding('bad-cell', '', { ...at(5, 'M1'), file: 'other.csv' }), 'M1')).toBe(5);
    const { file: _, ...nowhere } = at(5, 'M1');
    expect(about(makeFinding('bad-cell', '', nowhere), 'M1')).toBe(5);
  });

  it('takes a sheet that could not be read for one that may hold any bag', () => {
    const refused = new RefusedRows([makeFinding('sheet-column-missing', '', at(1))], [], [], isMachine);
    expect(refused.mayHold('M1', DAY)).toMatchObject({ code: 'sheet-column-missing' });
    expect(new RefusedRows([], [], [], isMachine).mayHold('M1', DAY)).toBeNull();
  });

  it('reads the findings of a real sheet', () => {
    const content = 'machine,visited_at,coins\nM1,03/04/2026,12.50\nM2,2026-11-24,x\nM3,2026-11-24,5\n,2026-11-24,1\n';
    const machines = [{ ...M1, machine: 'M1' }, makeMachine({ machine: 'M2', currency: 'EUR' })];
    const sheet = (text: string) => readCounts({ file: 'counts.csv', content: text }, decimalsFromRoster(machines, 2));
    const { rows, findings } = sheet(content);
    const refused = new RefusedRows(findings, [], rows, isMachine);
    expect(rows.map(({ machine }) => machine)).toEqual(['M3']);
    expect([refused.mayHold('M1', DAY)?.row, refused.mayHold('M2', DAY)?.row]).toEqual([2, 3]);
    // The last row names no machine.
    expect(refused.mayHold('M3', DAY)?.row).toBe(5);
  });

  it('knows of a row how far it could be read: its day, and which bag it is', () => {
    const row = {
      machine: 'M1',
      visitedAt: { date: DAY, time: null },
      bag: 'B1',
      route: null,
      driver: null,
      why: 'row 6 could not be used',
      place: { file: 'counts.csv', row: 6 },
    };
    const refused = new RefusedRows([makeFinding('bad-cell', '', at(6, 'M1'))], [row], [], isMachine);
    expect([refused.mayHold('M1', DAY)?.row, refused.bagOf('M1', DAY)?.bag]).toEqual([6, 'B1']);
    // It is not a bag of another day, and the finding about it makes no second one.
    expect([refused.mayHold('M1', '2026-11-25'), refused.bagOf('M1', '2026-11-25')]).toEqual([null, null]);
    expect(new RefusedRows([], [row, row], [], isMachine).bagOf('M1', DAY)).toBeNull();
    expect(new RefusedRows([], [{ ...row, visitedAt: null }], [], isMachine).mayHold('M1', '2026-11-25')?.row).toBe(6);
  });
});
