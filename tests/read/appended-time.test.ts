import { describe, expect, it } from 'vitest';
import { parseAppendedTime } from '../../src/read/appended-time.js';

// Common practice; the layouts are from memory.
describe('a time that a reader appended to ST', () => {
  it.each([
    [['261124101530'], '2026-11-24T10:15:30'],
    [['20261124101530'], '2026-11-24T10:15:30'],
    [['2611241015'], '2026-11-24T10:15:00'],
    [['202611241015'], '2026-11-24T10:15:00'],
    [['261124', '1015'], '2026-11-24T10:15:00'],
    [['20261124', '101530'], '2026-11-24T10:15:30'],
    [['261124101530', 'READER7'], '2026-11-24T10:15:30'],
    [['261324101530'], null],
    [['261124251530'], null],
    [['READER7'], null],
    [['261124'], null],
    [[''], null],
    [[], null],
  ])('%j is %s', (elements, expected) => {
    expect(parseAppendedTime(elements)).toBe(expected);
  });
});
