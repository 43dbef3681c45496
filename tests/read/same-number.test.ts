import { describe, expect, it } from 'vitest';
import { isSameNumber } from '../../src/read/same-number.js';

describe('control numbers', () => {
  it.each([
    ['1', '1', true],
    ['1', '0001', true],
    ['000', '0', true],
    [null, null, true],
    ['A1', 'A1', true],
    ['1', '2', false],
    ['1', null, false],
    [null, '1', false],
    ['A1', '0A1', false],
    ['1', '1 ', false],
    // Longer than a number can keep: the digits decide.
    ['90071992547409931', '90071992547409930', false],
  ])('%s and %s: %s', (a, b, expected) => {
    expect(isSameNumber(a, b)).toBe(expected);
  });
});
