import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writePercent } from '../../src/accounts/write-percent.js';
import { parsePercent } from '../../src/sheets/percent-column.js';

describe('writePercent', () => {
  it.each([
    [0, '0'],
    [1, '0.0001'],
    [5_000, '0.5'],
    [88_750, '8.875'],
    [190_000, '19'],
    [1_000_000, '100'],
    [null, null],
  ])('%s is %s', (rate, text) => {
    expect(writePercent(rate)).toBe(text);
  });

  it('is read back as the same rate', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (rate) => {
        expect(parsePercent(`${writePercent(rate)} %`, { taken: new Set() })).toEqual({ value: rate });
      }),
    );
  });
});
