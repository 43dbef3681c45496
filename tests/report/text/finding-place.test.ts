import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { placeParts } from '../../../src/report/text/finding-place.js';

describe('placeParts', () => {
  const finding = makeFinding('price-off-plan', 'Off.', {
    ...{
      file: 'in/b.dex',
      machine: 'V1',
      line: 7,
      element: 'PA102',
      segment: 'PA1',
      expected: '1.50',
      received: '1.40',
    },
    related: [{ file: 'in/a.dex' }],
  });

  it('says all that is known, the element before its segment', () => {
    expect(placeParts(finding, {}, (file) => `file ${file}`)).toEqual([
      ...['machine V1', 'file in/b.dex', 'line 7', 'PA102', 'expected 1.50', 'found 1.40', 'against a.dex'],
    ]);
  });

  it('leaves out what stands around it, and what a row of a sheet says itself', () => {
    expect(placeParts(finding, { machine: 'V1', file: 'in/b.dex' })[0]).toBe('line 7');
    const cell = makeFinding('bad-cell', 'Bad.', {
      file: 'c.csv',
      row: 3,
      field: 'coins',
      expected: 'a',
      received: 'b',
    });
    expect(placeParts(cell, {})).toEqual(['c.csv', 'row 3', 'column coins']);
  });
});
