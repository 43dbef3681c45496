import { describe, expect, it } from 'vitest';
import { findUnknownMachines, findUnknownRefused } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { Roster, readCapturesList, readMachines, readPlan } from '../../src/sheets/index.js';

const { rows: machines } = readMachines({ file: 'm.csv', content: 'machine,asset\nM1,A1\n' });
const { rows: capturesList } = readCapturesList({
  file: 'list.csv',
  content: 'file,machine\na.dex,M1\nb.dex,M7\nc.dex,\n',
});
const { rows: plan } = readPlan(
  { file: 'plan.csv', content: 'machine,column,price\nM1,11,1.00\nM9,11,1.00\nM9,12,1.00\n' },
  { decimalsOf: () => 2, currencyOf: () => null, defaultDecimals: 2 },
);

describe('findUnknownMachines', () => {
  it('names each machine once a sheet, with file, row and column', () => {
    const findings = findUnknownMachines(new Roster({ machines, plan, capturesList }));
    expect(findings.map(({ file, row, field, machine }) => [file, row, field, machine])).toEqual([
      ['plan.csv', 3, 'machine', 'M9'],
      ['list.csv', 3, 'machine', 'M7'],
    ]);
    expect(findings[1]!.message).toBe(
      'list.csv, row 3, column machine: "M7" is not on the roster; expected a machine of it. The row has no effect; all others count.',
    );
  });

  it('says nothing without a roster', () => {
    expect(findUnknownMachines(new Roster({ plan, capturesList }))).toEqual([]);
  });
});

describe('findUnknownRefused', () => {
  it('names the machines of refused rows that the roster lacks, each once with its rows', () => {
    const at = (machine: string, row: number) => makeFinding('bad-cell', 'Bad.', { file: 'counts.csv', row, machine });
    const findings = [at('M1', 2), at('M9', 3), at('M9', 3), at('M9', 5), makeFinding('sheet-format', 'Semicolons.')];
    const unknown = findUnknownRefused(findings, new Roster({ machines }));
    expect(unknown.map(({ row, machine }) => [row, machine])).toEqual([[3, 'M9']]);
    expect(unknown[0]!.message).toMatch(/This and 1 more row of it have no effect/);
  });
});
