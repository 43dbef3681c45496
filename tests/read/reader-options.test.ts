import { expect, it } from 'vitest';
import { LONGEST_SET, MOST_COLUMNS, MOST_LINES } from '../../src/read/index.js';
import { withDefaults } from '../../src/read/reader-options.js';

it('takes the limits that are given, the usual ones otherwise, and none that is no whole number above 0', () => {
  const usual = { longestSet: LONGEST_SET, mostColumns: MOST_COLUMNS, mostLines: MOST_LINES };
  expect(withDefaults({})).toMatchObject(usual);
  expect(withDefaults({ mostColumns: 7 })).toMatchObject({ ...usual, mostColumns: 7 });
  for (const limit of [0, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => withDefaults({ mostLines: limit })).toThrow('mostLines must be a whole number above 0');
  }
});
