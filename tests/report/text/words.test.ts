import { describe, expect, it } from 'vitest';
import {
  amountCell,
  countCell,
  durationWords,
  plural,
  signedCell,
  timeWords,
  unitWords,
} from '../../../src/report/text/words.js';

const EUR = { currency: 'EUR', decimals: 2 };

describe('figures in words', () => {
  it('print what is not known as a dash, never as 0', () => {
    expect([amountCell(null, EUR), signedCell(null, EUR), countCell(null)]).toEqual(['-', '-', '-']);
    expect([amountCell(0, EUR), signedCell(0, EUR), countCell(0)]).toEqual(['0.00', '0.00', '0']);
  });

  it('print amounts with the decimals of their money', () => {
    expect(amountCell(-1250, EUR)).toBe('-12.50');
    expect(signedCell(1250, EUR)).toBe('+12.50');
    expect(amountCell(1250, { currency: 'JPY', decimals: 0 })).toBe('1250');
    expect(amountCell(1250, { currency: 'KWD', decimals: 3 })).toBe('1.250');
  });

  it('say where currency or decimals are not known', () => {
    expect(unitWords(EUR)).toBe('EUR');
    expect(unitWords({ currency: null, decimals: 2 })).toBe('currency not known');
    expect(unitWords({ currency: 'EUR', decimals: null })).toMatch(/decimals not known/);
  });
});

describe('times in words', () => {
  it('leave out seconds that say nothing', () => {
    expect(timeWords('2026-11-24T10:15:00')).toBe('2026-11-24 10:15');
    expect(timeWords('2026-11-24T10:15:35')).toBe('2026-11-24 10:15:35');
    expect(timeWords('2026-11-24T10:00:00')).toBe('2026-11-24 10:00');
    expect(timeWords('2026-11-24')).toBe('2026-11-24');
    expect(timeWords(null)).toBe('time not known');
  });

  it('say how long it was', () => {
    const from = '2026-11-24T10:00:00';
    expect(durationWords(from, '2026-11-24T10:25:00')).toBe('25 min');
    expect(durationWords(from, '2026-11-24T23:55:00')).toBe('13 h 55 min');
    expect(durationWords(from, '2026-11-24T12:00:00')).toBe('2 h');
    expect(durationWords(from, '2026-11-27T14:30:00')).toBe('3 d 4 h');
    expect(durationWords(from, '2026-11-25T10:00:00')).toBe('1 d');
    expect(durationWords(from, from)).toBe('0 min');
    expect(durationWords(from, '2026-11-24T09:00:00')).toBeNull();
    expect(durationWords(null, from)).toBeNull();
    expect(durationWords(from, null)).toBeNull();
  });
});

describe('plural', () => {
  it('fits the noun to the number', () => {
    expect([plural(1, 'read'), plural(2, 'read'), plural(0, 'visit'), plural(2, 'bus', 'buses')]).toEqual([
      '1 read',
      '2 reads',
      '0 visits',
      '2 buses',
    ]);
  });
});
