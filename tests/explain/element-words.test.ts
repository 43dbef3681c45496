import { describe, expect, it } from 'vitest';
import { ELEMENT, type ElementName } from '../../src/dictionary/index.js';
import { elementWords, type ReadMoney, writeDateWords } from '../../src/explain/index.js';

const EUR: ReadMoney = { currency: 'EUR', decimals: 2, profile: null };
const words = (name: ElementName, text: string, money: ReadMoney = EUR) => elementWords(text, ELEMENT[name], money);

describe('elementWords', () => {
  it('puts amounts in the currency and decimals of the read', () => {
    expect(words('CA302', '14535')).toBe('145.35 EUR');
    expect(words('CA302', '14535', { ...EUR, currency: 'JPY', decimals: 0 })).toBe('14535 JPY');
    expect(words('CA302', '14535', { currency: null, decimals: null, profile: null })).toBe(
      '14535 (decimals not known)',
    );
  });

  it('leaves counts as they stand, but for what hides their value', () => {
    expect(words('VA102', '33688')).toBeNull();
    expect(words('VA102', '0000012')).toBe('12');
    expect(words('VA102', '12a')).toBe('not a number');
    expect(words('CA302', '99999999999999999999')).toBe('more digits than can be kept exactly');
  });

  // Crane Autobar Infinity operators manual, p. 33: bills may be given as a number by an operator's setting.
  it('says both readings of bills, unless the profile says which it is', () => {
    expect(words('CA304', '4')).toBe('0.04 EUR if a value, 4 bills if a number');
    expect(words('CA304', '4', { ...EUR, profile: { name: 'p', bills: 'count' } })).toBe('4 bills');
    expect(words('CA304', '400', { ...EUR, profile: { name: 'p', bills: 'value' } })).toBe('4.00 EUR');
  });

  // Lavazza Blue LB 2000 manual, section 15.2: `EA3*22*020801*1645*1*020723*1137` was taken 2002-08-01 16:45.
  it('puts dates and times in words', () => {
    expect(words('EA302', '020801')).toBe('1 August 2002');
    expect(words('EA303', '1645')).toBe('16:45');
    expect(words('ID502', '164530')).toBe('16:45:30');
    expect(words('ID501', '20261124')).toBe('24 November 2026');
    expect(words('ID501', '000000')).toBe('never');
    expect(words('ID501', '261331')).toBe('no date that exists');
    expect(words('ID502', '2561')).toBe('no time that exists');
  });

  it('names currencies by number (ISO 4217) and payment devices', () => {
    expect(words('ID402', '978')).toBe('EUR');
    expect(words('ID402', '001')).toBeNull();
    expect(words('PA702', 'CA')).toBe('cash');
    expect(words('PA702', 'DB')).toBe('cashless device 2');
    expect(words('PA702', 'XX')).toBeNull();
    expect(words('ID101', 'SN1')).toBeNull();
  });
});

describe('writeDateWords', () => {
  it('writes the day without a leading zero', () => {
    expect(writeDateWords('2026-01-05')).toBe('5 January 2026');
    expect(writeDateWords('2026-12-31')).toBe('31 December 2026');
  });
});
