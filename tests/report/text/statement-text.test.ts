import { describe, expect, it } from 'vitest';
import type { LocationStatement } from '../../../src/accounts/index.js';
import { layStatement } from '../../../src/report/text/statement-text.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { stateExample } from '../../accounts/example-accounts.js';

const [HALL, YARD, SHED, FOYER] = stateExample() as [
  LocationStatement,
  LocationStatement,
  LocationStatement,
  LocationStatement,
];
const lay = (statement: LocationStatement) => layStatement(statement, PLAIN_STYLE);
const textOf = (statement: LocationStatement) => lay(statement).join(' ').replaceAll(/ +/g, ' ');

describe('layStatement', () => {
  it('begins with the answer', () => {
    expect(lay(HALL)[0]).toBe('=Hall, 3: commission at least 4.81 EUR on at least 47.36 EUR sold.');
    expect(lay(YARD)[0]).toBe('Yard: commission 0.10 EUR on 1.01 EUR sold.');
    expect(lay(SHED)[0]).toBe('Shed: sales not known, so no statement.');
    expect(lay(FOYER)[0]).toBe('Foyer: no commission stated; 1.00 EUR sold.');
    expect(lay({ ...YARD, commission: null, location: null })[0]).toBe('M3: commission not known; 1.01 EUR sold.');
  });

  it('shows each machine with what it sold and its rates, and the sum', () => {
    expect(lay(HALL)).toContain('  M1        2026-11-18     20.00     17.36     37.36     12.5 % of net  19 %');
    expect(lay(HALL)).toContain('  M2        2026-11-18   >= 7.00   >= 3.00  >= 10.00  8.875 % of gross   7 %');
    expect(lay(HALL)).toContain('  together              >= 27.00  >= 20.36  >= 47.36');
    expect(lay(YARD)).toContain('  M3        2026-11-18  1.01  0.00      1.01  10 % of net  19 % on top');
    expect(lay(SHED)).toContain('  M4        2026-11-18     -  5.00         -  10 % of gross    -');
    const unread = {
      ...SHED,
      lines: [{ ...SHED.lines[0]!, to: null, machine: { ...SHED.lines[0]!.machine, commissionBase: null } }],
    };
    expect(lay(unread).find((line) => line.startsWith('  M4'))).toMatch(/^ {2}M4 +- +- +5\.00 +- +10 % +-$/);
  });

  it('shows how the commission comes about, with what rounding left out', () => {
    expect(lay(HALL).slice(9, 14)).toEqual([
      '  cash and card sales, at least     47.36',
      '  tax contained, at least            6.62',
      '  net of tax, at least              40.74',
      '  commission is taken of, at least  41.39',
      '  commission, at least               4.81',
    ]);
    expect(textOf(HALL)).toContain(
      'Rounded once, half to even: the exact tax is 958/12733 of a minor unit less; the exact commission is 89/476 of a minor unit more.',
    );
    expect(textOf(YARD)).toContain('tax on top 0.19');
    expect(textOf(YARD)).toContain('the exact tax on top is 19/100 of a minor unit more');
    const exact = { amount: 10, remainder: { numerator: 0n, denominator: 1n } };
    expect(textOf({ ...YARD, tax: exact, taxOnTop: null, commission: exact })).toContain('No rounding was needed.');
    expect(textOf(SHED)).not.toContain('cash and card sales');
  });

  it('says at least on no figure that is exact, beside others that are the least', () => {
    const floors = { ...HALL.floors, cashSales: false, tax: false, base: false, commission: false };
    const [line, ...others] = HALL.lines;
    const exactCash = { ...line!, floors: { cashSales: false, cardSales: true, sales: true } };
    const text = lay({ ...HALL, floors, lines: [exactCash, ...others] });
    expect(text[0]).toBe('=Hall, 3: commission 4.81 EUR on at least 47.36 EUR sold.');
    expect(text.find((one) => one.startsWith('  M1'))).toMatch(/ {2}20\.00 +>= 17\.36 +>= 37\.36 /);
    expect(text).toContain('  tax contained                   6.62');
    expect(text).toContain('  net of tax, at least           40.74');
  });

  it('says between which times was counted, or that there are none', () => {
    expect(lay(YARD)[1]).toBe('  sales from 2026-11-16 00:05 to 2026-11-18 00:05; amounts in EUR');
    const unread = { ...SHED, from: null, to: null, lines: SHED.lines.map((line) => ({ ...line, intervals: [] })) };
    expect(lay(unread)[1]).toBe('  no two reads to count sales between; amounts in EUR');
  });

  it('says what to look at', () => {
    expect(textOf(SHED)).toContain('machine M4, machines.csv, row 5, sales-not-known');
  });

  it('fits 80 columns', () => {
    for (const statement of [HALL, YARD, SHED, FOYER]) {
      for (const line of lay(statement)) expect(line.length).toBeLessThanOrEqual(80);
    }
  });
});
