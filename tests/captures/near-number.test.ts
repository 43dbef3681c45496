import { describe, expect, it } from 'vitest';
import { isNearNumber } from '../../src/captures/near-number.js';

// Slips of typing (common practice): one character wrong, missing, too many, or two swapped; letters read for digits.
describe('isNearNumber', () => {
  it.each([
    ['A101', 'A1O1'],
    ['A101', 'a 101'],
    ['A-101', 'A101'],
    ['00457', '457'],
    ['A101', 'A107'],
    ['A101', 'A1101'],
    ['A101', 'A10'],
    ['A1234', 'A1324'],
  ])('%s is near %s', (a, b) => {
    expect(isNearNumber(a, b)).toBe(true);
    expect(isNearNumber(b, a)).toBe(true);
  });

  it.each([
    ['A101', 'A210'],
    ['A1234', 'A4321'],
    ['A1', 'A2'],
    ['', ''],
    ['A101', null],
    [null, null],
  ])('%s is not near %s', (a, b) => {
    expect(isNearNumber(a, b)).toBe(false);
  });
});
