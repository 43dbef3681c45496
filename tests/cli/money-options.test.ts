import { describe, expect, it } from 'vitest';
import { defaultMoney, readTolerance } from '../../src/cli/money-options.js';
import { readOptions, settleShape } from '../../src/cli/option-shapes.js';
import { makeMachine } from '../settlement/scenario.js';

const options = (given: Record<string, unknown>) => readOptions(settleShape, { captures: ['a'], ...given });
const machines = (...currencies: string[]) =>
  currencies.map((currency, i) => makeMachine({ machine: `M${i}`, currency }));

describe('defaultMoney', () => {
  // Decimals of the yen and the dinar: ISO 4217.
  it('takes the decimals of a currency from ISO 4217 unless others are given', () => {
    expect(defaultMoney(options({}))).toEqual({ currency: null, decimals: null });
    expect(defaultMoney(options({ currency: 'JPY' }))).toEqual({ currency: 'JPY', decimals: 0 });
    expect(defaultMoney(options({ currency: 'KWD' }))).toEqual({ currency: 'KWD', decimals: 3 });
    expect(defaultMoney(options({ currency: 'EUR', decimals: '1' }))).toEqual({ currency: 'EUR', decimals: 1 });
    expect(defaultMoney(options({ decimals: '2' }))).toEqual({ currency: null, decimals: 2 });
  });
});

describe('readTolerance', () => {
  it('is nothing unless it is given', () => {
    expect(readTolerance(options({}), [])).toEqual({ amount: 0, basisPoints: 0 });
  });

  it('reads amounts exactly, in the money of the machines', () => {
    const amount = (tolerance: string, ...currencies: string[]) =>
      readTolerance(options({ tolerance }), machines(...currencies)).amount;
    expect(amount('0.50', 'EUR', 'EUR')).toBe(50);
    expect(amount('0,5', 'EUR')).toBe(50);
    expect(amount('3', 'EUR')).toBe(300);
    expect(amount('500', 'JPY')).toBe(500);
    expect(amount('1.005', 'KWD')).toBe(1005);
    expect(() => amount('0.505', 'EUR')).toThrow('--tolerance: "0.505" has more than 2 decimals');
    expect(() => amount('1', 'EUR', 'JPY')).toThrow(/different decimals/);
    expect(() => amount('1')).toThrow(/decimals are not known/);
  });

  it('reads percentages to a hundredth', () => {
    expect(readTolerance(options({ tolerancePercent: '1' }), []).basisPoints).toBe(100);
    expect(readTolerance(options({ tolerancePercent: '0,25' }), []).basisPoints).toBe(25);
  });
});
