import { describe, expect, it } from 'vitest';
import { countOf, listSome, writeDuration, writeMoney, writeWhen } from '../../src/checks/wording.js';
import { PLAIN_CONTEXT } from '../support/check-cases.js';

describe('words for figures', () => {
  it.each([
    [0, '0 minutes'],
    [1, '1 minute'],
    [59, '59 minutes'],
    [60, '1 hour'],
    [61, '1 h 1 min'],
    [120, '2 hours'],
    [47 * 60 + 59, '47 h 59 min'],
    [48 * 60, '2 days'],
    [49 * 60 + 30, '2 days 1 h'],
    [31 * 24 * 60 + 90, '31 days'],
  ])('writes %i minutes as %s', (minutes, words) => {
    expect(writeDuration(minutes)).toBe(words);
  });

  it('counts with the noun in its number', () => {
    expect([countOf(1, 'line'), countOf(0, 'line'), countOf(2, 'is', 'are')]).toEqual(['1 line', '0 lines', '2 are']);
  });

  it('lists the first and counts the rest', () => {
    expect(listSome(['a', 'b'])).toBe('a, b');
    expect(listSome(['a', 'b', 'c', 'd'], 2)).toBe('a, b and 2 more');
  });

  it('writes money and times as people read them', () => {
    expect(writeMoney(150, PLAIN_CONTEXT)).toBe('1.50 EUR');
    expect(writeWhen('2026-11-24T10:15:30')).toBe('2026-11-24 10:15');
  });
});
