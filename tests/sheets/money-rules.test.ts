import { describe, expect, it } from 'vitest';
import { decimalsFromRoster, readMachines } from '../../src/sheets/index.js';

const roster = readMachines({
  file: 'machines.csv',
  content: 'machine,currency,decimals\nM1,EUR,\nM2,JPY,\nM3,HUF,0\nM4,,3\nM5,,\n',
}).rows;

describe('decimalsFromRoster', () => {
  const { decimalsOf, currencyOf, defaultDecimals } = decimalsFromRoster(roster, 2);

  // ISO 4217: EUR has two decimals, JPY none, HUF two.
  it.each([
    ['M1', 2, 'EUR', 'its currency'],
    ['M2', 0, 'JPY', 'its currency'],
    ['M3', 0, 'HUF', 'its own decimals, though its currency has others'],
    ['M4', 3, null, 'its own decimals'],
    ['M5', null, null, 'nothing'],
    ['M9', null, null, 'nothing, not being on the roster'],
  ])('knows of %s %s decimals and the currency %s, by %s', (machine, decimals, currency, _by) => {
    expect(decimalsOf(machine)).toBe(decimals);
    expect(currencyOf(machine)).toBe(currency);
  });

  it('passes the default on', () => {
    expect(defaultDecimals).toBe(2);
    expect(decimalsFromRoster([], null).defaultDecimals).toBeNull();
  });

  it('takes the first of two rows with one name', () => {
    const [first, second] = roster;
    const rules = decimalsFromRoster([first!, { ...second!, machine: 'M1' }], null);
    expect(rules.currencyOf('M1')).toBe('EUR');
  });
});
