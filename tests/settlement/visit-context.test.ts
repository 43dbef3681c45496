import { describe, expect, it } from 'vitest';
import { isSameMoney, routeOf, unitOfSheet } from '../../src/settlement/visit-context.js';
import { decimalsFromRoster } from '../../src/sheets/index.js';
import { M1, makeCount } from './scenario.js';

describe('unitOfSheet', () => {
  const unit = (defaultDecimals: number | null, name = 'M1') =>
    unitOfSheet({ name, sheetMoney: decimalsFromRoster([M1], defaultDecimals) } as Parameters<typeof unitOfSheet>[0]);

  it('is what the roster says, its decimals by ISO 4217', () => {
    expect(unit(null)).toEqual({ currency: 'EUR', decimals: 2 });
  });

  it('is the option for a machine that the roster lacks', () => {
    expect(unit(3, 'M9')).toEqual({ currency: null, decimals: 3 });
    expect(unit(null, 'M9')).toEqual({ currency: null, decimals: null });
  });
});

describe('isSameMoney', () => {
  const euro = { currency: 'EUR', decimals: 2 };

  it.each([
    [euro, true],
    [{ currency: 'USD', decimals: 2 }, false],
    [{ currency: 'EUR', decimals: 3 }, false],
    [{ currency: null, decimals: 2 }, true],
    [{ currency: 'EUR', decimals: null }, true],
  ])('EUR with 2 decimals and %j: %s', (other, isSame) => {
    expect(isSameMoney(euro, other)).toBe(isSame);
    expect(isSameMoney(other, euro)).toBe(isSame);
  });
});

describe('routeOf', () => {
  it("is the row's, else the machine's", () => {
    expect(routeOf(makeCount('M1', '2026-11-24', { route: 'R9' }), M1)).toBe('R9');
    expect(routeOf(makeCount('M1', '2026-11-24'), M1)).toBe('R1');
    expect(routeOf(undefined, null)).toBeNull();
  });
});
