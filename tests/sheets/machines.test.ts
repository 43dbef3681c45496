import { describe, expect, it } from 'vitest';
import { readMachines } from '../../src/sheets/index.js';
import { outline } from '../support/sheet-reading.js';

const read = (content: string) => readMachines({ file: 'machines.csv', content });

describe('readMachines', () => {
  it('reads every column', () => {
    const content = [
      'machine,asset,serial,location,route,driver,currency,decimals,has_cash,has_bills,has_card,profile,active,commission_percent,commission_base,tax_percent,tax_included',
      'M1,A-17,000123,"Hall 3, left",North,D. Ray,eur,2,yes,N,TRUE,plain,1,12.5,Net,8.875 %,no',
      'M2,,,,,,,,,,,,,,,,',
    ].join('\r\n');
    expect(read(content)).toEqual({
      rows: [
        {
          machine: 'M1',
          asset: 'A-17',
          serial: '000123',
          location: 'Hall 3, left',
          route: 'North',
          driver: 'D. Ray',
          currency: 'EUR',
          decimals: 2,
          hasCash: true,
          hasBills: false,
          hasCard: true,
          profile: 'plain',
          active: true,
          commission: 125_000,
          commissionBase: 'net',
          tax: 88_750,
          taxIncluded: false,
          place: { file: 'machines.csv', row: 2 },
        },
        {
          machine: 'M2',
          asset: null,
          serial: null,
          location: null,
          route: null,
          driver: null,
          currency: null,
          decimals: null,
          hasCash: null,
          hasBills: null,
          hasCard: null,
          profile: null,
          active: null,
          commission: null,
          commissionBase: null,
          tax: null,
          taxIncluded: null,
          place: { file: 'machines.csv', row: 3 },
        },
      ],
      findings: [],
    });
  });

  it('needs nothing but the machine', () => {
    expect(read('machine\nM1\nM2')).toMatchObject({ rows: [{ machine: 'M1' }, { machine: 'M2' }], findings: [] });
    expect(outline(read('asset\nA1').findings)).toEqual(['sheet-column-missing 1']);
  });

  it('keeps a machine with a bad cell, which then counts as not stated', () => {
    const { rows, findings } = read('machine,currency,decimals,has_cash\nM1,EURO,9,perhaps\nM2,EUR,2,yes');
    expect(rows).toMatchObject([{ machine: 'M1', currency: null, decimals: null, hasCash: null }, { machine: 'M2' }]);
    expect(findings.map(({ message }) => message)).toEqual([
      'machines.csv, row 2, column has_cash: "perhaps" is neither; expected yes or no. The cell counts as not stated; the rest of the row is used; the other row is used.',
      'machines.csv, row 2, column currency: "EURO" is no currency of ISO 4217; expected an alphabetic code of ISO 4217 such as EUR. The cell counts as not stated; the rest of the row is used; the other row is used.',
      'machines.csv, row 2, column decimals: "9" is too large; expected a whole number from 0 to 4. The cell counts as not stated; the rest of the row is used; the other row is used.',
    ]);
    expect(findings.every(({ machine }) => machine === 'M1')).toBe(true);
  });

  it('keeps a machine whose rates cannot be read, without rates', () => {
    const header = 'machine;commission_percent;commission_base;tax_percent';
    const { rows, findings } = read(`${header}\nM1;0,15;both;101\nM2;12,5;gross;20`);
    expect(rows).toMatchObject([
      { machine: 'M1', commission: null, commissionBase: null, tax: null },
      { machine: 'M2', commission: 125_000, commissionBase: 'gross', tax: 200_000 },
    ]);
    expect(outline(findings)).toEqual([
      'sheet-format',
      'ambiguous-number 2 commission_percent',
      'bad-cell 2 commission_base',
      'bad-cell 2 tax_percent',
    ]);
  });

  it('does not take a percentage with a comma apart where commas separate the cells', () => {
    const { rows, findings } = read(
      'machine,commission_percent,commission_base,active\nM1,12,5,gross,yes\nM2,12.5,gross,yes',
    );
    expect(rows.map(({ machine }) => machine)).toEqual(['M2']);
    expect(outline(findings)).toEqual(['bad-row 2']);
  });

  it('leaves out a row that names no machine', () => {
    const { rows, findings } = read('machine,asset\n,A1\nM2,A2');
    expect(rows).toHaveLength(1);
    expect(findings).toMatchObject([
      {
        message:
          'machines.csv, row 2, column machine: the cell is empty; expected a machine. The row is left out; the other row is used.',
      },
    ]);
  });

  it('keeps the first of two rows for one machine', () => {
    const { rows, findings } = read('machine,asset\nM1,A1\nM1,A2\nM2,A2\nM1,A1');
    expect(rows.map(({ machine, asset }) => `${machine} ${asset}`)).toEqual(['M1 A1', 'M2 A2']);
    expect(outline(findings)).toEqual(['duplicate-row 3 machine', 'duplicate-row 5 machine']);
    expect(findings[0]).toMatchObject({
      severity: 'doubt',
      message:
        'machines.csv, row 3, column machine: machine "M1" was named in row 2 already. The row is left out; 2 other rows are used.',
      related: [{ file: 'machines.csv', row: 2 }],
    });
  });

  it('doubts an asset or a serial that two machines share, and keeps both', () => {
    const { rows, findings } = read('machine,asset,serial\nM1,A1,S1\nM2,A1,S2\nM3,A3,S1\nM4,,\nM5,,');
    expect(rows).toHaveLength(5);
    expect(outline(findings)).toEqual(['duplicate-row 3 asset', 'duplicate-row 4 serial']);
    expect(findings[0]!.message).toBe(
      'machines.csv, row 3, column asset: asset "A1" belongs to row 2 as well. Both rows are used.',
    );
  });
});
