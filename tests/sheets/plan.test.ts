import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMinor } from '../../src/model/index.js';
import { decimalsFromRoster, readPlan } from '../../src/sheets/index.js';
import { EURO, moneyIn, outline } from '../support/sheet-reading.js';

const read = (content: string, money = EURO) => readPlan({ file: 'plan.csv', content }, money);

describe('readPlan', () => {
  it('reads every column', () => {
    const { rows, findings } = read(
      'machine,column,product,price,par,capacity,card_price,from\nM1,011,"Tea, green",1.50,8,10,1.40,2026-11-01\nM1,12,,,,,,',
    );
    expect(rows).toEqual([
      {
        machine: 'M1',
        column: '011',
        product: 'Tea, green',
        price: 150,
        cardPrice: 140,
        par: 8,
        capacity: 10,
        from: '2026-11-01',
        place: { file: 'plan.csv', row: 2 },
      },
      {
        machine: 'M1',
        column: '12',
        product: null,
        price: null,
        cardPrice: null,
        par: null,
        capacity: null,
        from: null,
        place: { file: 'plan.csv', row: 3 },
      },
    ]);
    expect(findings).toEqual([]);
  });

  it('must have a column of prices, whose cells may be empty', () => {
    expect(outline(read('machine,column\nM1,11').findings)).toEqual(['sheet-column-missing 1']);
  });

  it('keeps a row whose price cannot be read, without a price', () => {
    const { rows, findings } = read('machine,column,price\nM1,11,-1.50\nM1,12,1.505\nM1,13,1.50');
    expect(rows.map(({ price }) => price)).toEqual([null, null, 150]);
    expect(findings.map(({ code, message }) => `${code} ${message}`)).toEqual([
      'bad-cell plan.csv, row 2, column price: "-1.50" is below zero; expected an amount of 0 or more. The cell counts as not stated; the rest of the row is used; the other 2 rows are used.',
      'ambiguous-number plan.csv, row 3, column price: "1.505" can be read as 1505 and as 1.505; expected an amount such as 12.50, without thousands marks. The cell counts as not stated; the rest of the row is used; the other 2 rows are used.',
    ]);
  });

  it('leaves out a row whose date cannot be read, since the price could not be placed', () => {
    const { rows, findings } = read('machine,column,price,from\nM1,11,1.50,03/04/2026\nM1,11,1.40,');
    expect(rows).toMatchObject([{ price: 140, from: null }]);
    expect(outline(findings)).toEqual(['ambiguous-date 2 from']);
  });

  it('keeps the first of two rows for one column from one date', () => {
    const { rows, findings } = read(
      'machine,column,price,from\nM1,11,1.50,\nM1,11,1.60,2026-11-01\nM1,11,1.70,\nM2,11,1.50,\nM1,11,1.80,2026-11-01',
    );
    expect(rows.map(({ price }) => price)).toEqual([150, 160, 150]);
    expect(findings.map(({ message }) => message)).toEqual([
      'plan.csv, row 4, column column: column "11" of machine "M1" was named in row 2 already. The row is left out; 3 other rows are used.',
      'plan.csv, row 6, column column: column "11" of machine "M1" from 2026-11-01 was named in row 3 already. The row is left out; 3 other rows are used.',
    ]);
  });

  it('reads each price in the decimals of its machine', () => {
    const money = {
      decimalsOf: (m: string) => ({ M1: 2, M2: 0 })[m] ?? null,
      currencyOf: () => null,
      defaultDecimals: null,
    };
    const { rows, findings } = read('machine,column,price\nM1,1,150\nM2,1,150\nM3,1,150', money);
    expect(rows.map(({ price }) => price)).toEqual([15000, 150, null]);
    expect(findings).toMatchObject([
      {
        code: 'bad-cell',
        machine: 'M3',
        field: 'price',
        expected: 'the machine with its currency or decimals in the roster',
      },
    ]);
    expect(read('machine,column,price\nM3,1,150', decimalsFromRoster([], 3)).rows[0]!.price).toBe(150000);
  });

  it.each([
    [
      'semicolons and decimal commas',
      'machine;column;price\nM1;11;1,50\nM1;12;1.200,00',
      [150, 120000],
      /cells separated by semicolons; commas before decimals; points as thousands marks\./,
    ],
    [
      'tabs',
      'machine\tcolumn\tprice\nM1\t11\t1,50 €',
      [150],
      /cells separated by tabs; signs of the currency beside amounts; commas before decimals\./,
    ],
    [
      'commas, with the amount in quotation marks',
      'machine,column,price\nM1,11,"1,50"',
      [150],
      /taken as follows: commas before decimals\./,
    ],
  ])('reads a sheet with %s, and says so', (_, content, prices, note) => {
    const { rows, findings } = read(content);
    expect(rows.map(({ price }) => price)).toEqual(prices);
    expect(findings).toMatchObject([{ code: 'sheet-format', severity: 'note', message: expect.stringMatching(note) }]);
  });

  it('reads a number that can be read in two ways by what the rest of the sheet proves', () => {
    const sheet = (other: string) => read(`machine;column;price\nM1;11;1.250\nM1;12;${other}`).rows[0]!.price;
    expect(sheet('1,50')).toBe(125000);
    expect(sheet('2.500,00')).toBe(125000);
    expect(sheet('1.50')).toBeNull();
  });

  it('gives back every price of a sheet written in one style, in order', () => {
    const style = fc.record({
      decimals: fc.integer({ min: 0, max: 4 }),
      separator: fc.constantFrom(',', ';', '\t'),
      decimal: fc.constantFrom('.', ','),
      grouping: fc.constantFrom('', ' ', "'", '\u202f'),
    });
    const prices = fc.array(fc.integer({ min: 0, max: 99_999_999 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(prices, style, (amounts, { decimals, separator, decimal, grouping }) => {
        const write = (amount: number): string => {
          const [whole = '', fraction] = formatMinor(amount, decimals).split('.');
          const grouped = whole.replace(/\B(?=(\d{3})+$)/g, grouping);
          return `"${fraction === undefined ? grouped : grouped + decimal + fraction}"`;
        };
        // A first price below 1 proves the decimal mark, as one of a real plan most often does.
        const rows = [0, ...amounts].map((amount, i) => [`M${i}`, '11', write(amount)].join(separator));
        const { rows: read_ } = read(
          [['machine', 'column', 'price'].join(separator), ...rows].join('\n'),
          moneyIn(null, decimals),
        );
        expect(read_.map(({ price }) => price)).toEqual([0, ...amounts]);
      }),
    );
  });
});
