import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/sheets/index.js';
import { EURO, outline } from '../support/sheet-reading.js';

// Rows are read as the sheets read them: what is under test is how cells stand to their headers.
const read = (content: string) => readPlan({ file: 'plan.csv', content }, EURO);
const HEADER = 'machine,column,price,product\n';

describe('a row', () => {
  it('may lack cells at its end, which are then empty', () => {
    expect(read(`${HEADER}M1,11,1.50`)).toMatchObject({ rows: [{ price: 150, product: null }], findings: [] });
    expect(read(`${HEADER}M1,11`)).toMatchObject({ rows: [{ price: null }], findings: [] });
  });

  it('may have empty cells beyond its header', () => {
    expect(read(`${HEADER}M1,11,1.50,tea,,`)).toMatchObject({ rows: [{ product: 'tea' }], findings: [] });
    expect(read('machine,column,price,,\nM1,11,1.50,,')).toMatchObject({ rows: [{ price: 150 }], findings: [] });
  });

  it.each([
    ['full cells beyond the header', 'M1,11,1.50,tea,green', 'has 5 cells where the header has 4'],
    ['an amount in two cells and an end cut off', 'M1,11,1,50', null],
    ['an amount in two cells and one more', 'M1,11,1,50,', 'has 5 cells where the header has 4'],
    ['an amount in two cells with its currency', 'M1,11,€ 1,50 €,,', 'has 6 cells where the header has 4'],
  ])('with %s is left out where its cells may stand under the wrong headers', (_, line, says) => {
    const { findings } = read(`${HEADER}${line}`);
    expect(findings.map(({ code }) => code)).toEqual(says === null ? [] : ['bad-row']);
    if (says !== null) expect(findings[0]!.message).toContain(says);
  });

  it('that is short in a sheet with another separator is taken', () => {
    expect(read('machine;column;price;par;product\nM1;11;12;50')).toMatchObject({ rows: [{ price: 1200, par: 50 }] });
  });

  it('that is too long in a sheet with another separator names another cause', () => {
    const { findings } = read('machine;column;price\nM1;11;1,50;x');
    expect(findings.find(({ code }) => code === 'bad-row')!.message).toContain(
      'as happens when a text with the separator in it stands without quotation marks',
    );
  });

  it('with cells under a column without a name is taken', () => {
    expect(read('machine,,column,price\nM1,x,11,1.50').rows).toMatchObject([{ column: '11', price: 150 }]);
  });

  it('that repeats the header is left out, as where sheets were joined', () => {
    const { rows, findings } = read(`${HEADER}M1,11,1.50,\nmachine,column,price,product\nM2,11,1.50,`);
    expect(rows).toHaveLength(2);
    expect(findings.map(({ message }) => message)).toEqual([
      'plan.csv, row 3: repeats the header. The row is left out; the other 2 rows are used.',
    ]);
  });

  it('with quotation marks that do not close is left out, and how far that reaches is said', () => {
    const { rows, findings } = read(`${HEADER}M1,11,1.50,tea\nM2,11,1.50,"tea\nM3,11,1.50,\nM4,11,1.50,`);
    expect(rows.map(({ machine }) => machine)).toEqual(['M1']);
    expect(findings.map(({ message }) => message)).toEqual([
      'plan.csv, row 3: a quotation mark is opened and not closed as it should be, so that 3 lines run together; expected quotation marks around a whole cell, and doubled inside it. The row is left out; the other row is used.',
    ]);
    expect(read(`${HEADER}M1,11,1.50,"tea"s`).findings[0]!.message).toContain('not closed as it should be; expected');
  });

  it('has one finding for each bad cell, and may be used but for them', () => {
    const { rows, findings } = read('machine,column,price,card_price,par,capacity\nM1,11,x,y,z,10');
    expect(rows).toMatchObject([{ price: null, cardPrice: null, par: null, capacity: 10 }]);
    expect(outline(findings)).toEqual(['bad-cell 2 price', 'bad-cell 2 card_price', 'bad-cell 2 par']);
  });

  it('says that it is left out on each of its bad cells, where one of them takes it out', () => {
    const { findings } = read('machine,column,price,par\n,11,1.50,x\nM2,11,1.50,');
    expect(findings.map(({ message }) => message.endsWith('The row is left out; the other row is used.'))).toEqual([
      true,
      true,
    ]);
  });
});
