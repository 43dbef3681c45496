import { describe, expect, it } from 'vitest';
import type { RowProblem } from '../../src/sheets/describe-sheet.js';
import { listNames, nameFile, writeRowFinding } from '../../src/sheets/sheet-findings.js';

const problem: RowProblem = {
  code: 'bad-cell',
  says: '"x" is no amount',
  expected: 'an amount such as 12.50',
  field: 'coins',
  received: 'x',
  spoils: 'row',
};

function write(overrides: Partial<RowProblem>, usedRows: number[], total: number) {
  const placed = { row: 2, machine: 'M1', problem: { ...problem, ...overrides } };
  return writeRowFinding('counts.csv', placed, { total, usedRows: new Set(usedRows) });
}

describe('writeRowFinding', () => {
  it('says file, row, column, what was expected and what was done, in words and as data', () => {
    expect(write({ relatedRow: 7 }, [3, 4, 5], 4)).toEqual({
      code: 'bad-cell',
      severity: 'doubt',
      message:
        'counts.csv, row 2, column coins: "x" is no amount; expected an amount such as 12.50. The row is left out; the other 3 rows are used.',
      file: 'counts.csv',
      row: 2,
      field: 'coins',
      machine: 'M1',
      expected: 'an amount such as 12.50',
      received: 'x',
      related: [{ file: 'counts.csv', row: 7 }],
    });
  });

  it('leaves out what is not known', () => {
    const bare = { code: 'bad-row', says: 'repeats the header', spoils: 'row' } as const;
    expect(writeRowFinding('a', { row: 2, machine: null, problem: bare }, { total: 1, usedRows: new Set() })).toEqual({
      code: 'bad-row',
      severity: 'doubt',
      message: 'a, row 2: repeats the header. The row is left out; no other row is used.',
      file: 'a',
      row: 2,
    });
  });

  it.each([
    ['row', [], 1, 'The row is left out; no other row is used.'],
    ['row', [], 3, 'The row is left out; no other row is used.'],
    ['row', [3], 2, 'The row is left out; the other row is used.'],
    ['row', [3], 3, 'The row is left out; 1 other row is used.'],
    ['row', [3, 4], 3, 'The row is left out; the other 2 rows are used.'],
    ['row', [3, 4], 4, 'The row is left out; 2 other rows are used.'],
    ['cell', [3, 4], 4, 'The row is left out; 2 other rows are used.'],
    ['cell', [2], 1, 'The cell counts as not stated; the rest of the row is used.'],
    ['cell', [2], 2, 'The cell counts as not stated; the rest of the row is used; no other row is used.'],
    ['cell', [2, 3], 2, 'The cell counts as not stated; the rest of the row is used; the other row is used.'],
    ['cell', [2, 3, 4], 9, 'The cell counts as not stated; the rest of the row is used; 2 other rows are used.'],
    ['nothing', [2, 3], 2, 'The row is used.'],
  ] as const)('spoiling the %s, rows %j of %d being used', (spoils, usedRows, total, outcome) => {
    expect(write({ spoils }, [...usedRows], total).message).toMatch(`12.50. ${outcome}`);
    expect(write({ spoils }, [...usedRows], total).message.endsWith(outcome)).toBe(true);
  });

  it('says what was done where nothing is spoiled', () => {
    expect(write({ spoils: 'nothing', done: 'Both rows are used.' }, [2, 3], 2).message).toMatch(
      /12\.50\. Both rows are used\.$/,
    );
  });

  it('shows nothing hidden and no more than can be read', () => {
    const hostile = write({ field: '0.50\u2028', received: `\u001b${'x'.repeat(500)}` }, [], 1);
    expect(hostile.message).toContain('column 0.50\\u{2028}:');
    expect(hostile.received).toBe(`\\x1B${'x'.repeat(59)}…`);
    expect(nameFile('a\nb.csv')).toBe('a\\x0Ab.csv');
  });
});

describe('listNames', () => {
  it('lists a few names and counts the others', () => {
    expect(listNames(['a', 'b\u0007'])).toBe('a, b\\x07');
    expect(listNames(Array.from({ length: 14 }, (_, i) => `c${i}`))).toBe(
      'c0, c1, c2, c3, c4, c5, c6, c7, c8, c9, c10, c11, and 2 more',
    );
  });
});
