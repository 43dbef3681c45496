import { describe, expect, it } from 'vitest';
import { countPieces, readDenomination } from '../../src/sheets/denominations.js';
import { cellContext } from '../support/sheet-reading.js';

describe('readDenomination', () => {
  it.each([
    ['0.05', null, '0.05'],
    ['0,05', null, '0,05'],
    ['2.00', null, '2.00'],
    ['20', null, '20'],
    ['€2', null, '€2'],
    ['20 EUR', null, '20 EUR'],
    ['coin_0.50', 'coins', '0.50'],
    ['Coin 0.50', 'coins', '0.50'],
    ['coin-0.50', 'coins', '0.50'],
    ['bill_20', 'bills', '20'],
    ['BILL 20 €', 'bills', '20 €'],
  ])('knows %s', (header, kind, amount) => {
    expect(readDenomination(header)).toEqual({ kind, amount });
  });

  it.each(['', '0', '0.00', '-5', 'coin_', 'coins', 'bill', 'coins_2', '1st visit', '20 pcs', 'total 5', 'note_20'])(
    'takes %j for no denomination',
    (header) => {
      expect(readDenomination(header)).toBeNull();
    },
  );
});

describe('countPieces', () => {
  const count = (cells: Record<string, string>, overrides = {}) =>
    countPieces(
      Object.entries(cells).map(([header, text], index) => ({
        column: { index, header, extra: readDenomination(header)! },
        text,
      })),
      cellContext(overrides),
    );

  it('sums coins and bills as the headers say', () => {
    expect(count({ 'coin_0.50': '3', coin_2: '1', bill_5: '2' })).toEqual({
      counts: new Map([
        [50, 3],
        [200, 1],
        [500, 2],
      ]),
      sums: { coins: 350, bills: 1000, undecided: null },
      problems: [],
    });
  });

  it('tells them apart by the smallest note where the header does not say, and says so', () => {
    const taken = new Set<string>();
    expect(count({ '2': '4', '5': '1', '50': '0' }, { taken }).sums).toEqual({
      coins: 800,
      bills: 500,
      undecided: null,
    });
    expect([...taken]).toEqual([
      'denominations of 5.00 EUR and more as bills, others as coins, where the header does not say',
    ]);
  });

  it('keeps them undecided where the notes are not known', () => {
    expect(count({ '2': '4', bill_5: '1' }, { currency: null }).sums).toEqual({
      coins: null,
      bills: 500,
      undecided: 800,
    });
    expect(count({ '2': '4' }, { currency: 'UAH' }).sums).toEqual({ coins: null, bills: null, undecided: 800 });
  });

  it('counts coins and bills of one value together', () => {
    const pieces = count({ coin_1: '3', bill_1: '2' }, { currency: 'USD' });
    expect(pieces).toMatchObject({ counts: new Map([[100, 5]]), sums: { coins: 300, bills: 200 }, problems: [] });
  });

  it('knows of nothing where nothing was counted, and of 0 where 0 was', () => {
    expect(count({}).sums).toEqual({ coins: null, bills: null, undecided: null });
    expect(count({ coin_1: '0' }).sums).toEqual({ coins: 0, bills: null, undecided: null });
  });

  it.each([
    [{ coin_1: 'x' }, {}, 'coin_1', '"x" is no number'],
    [{ coin_1: '-1' }, {}, 'coin_1', '"-1" is below zero'],
    [{ coin_1: '1.5' }, {}, 'coin_1', '"1.5" is no whole number'],
    [
      { 'coin_0.505': '1' },
      {},
      'coin_0.505',
      '"1" is in a column whose header cannot be read: "0.505" has more decimals than the currency, which has 2',
    ],
    [
      { 'coin_1 USD': '1' },
      {},
      'coin_1 USD',
      '"1" is in a column whose header cannot be read: "1 USD" is not in EUR, the currency of the machine',
    ],
    [
      { coin_1: '1' },
      { decimals: null },
      'coin_1',
      '"1" cannot be valued, since the decimals of this machine\'s money are not known',
    ],
    [{ coin_2: '1', 'coin_2.00': '1' }, {}, 'coin_2.00', '"1" is a denomination with two columns'],
    [{ '5': '1', bill_5: '1' }, {}, 'bill_5', '"1" is a denomination with two columns'],
    [{ coin_1: '90071992547410' }, {}, 'coin_1', '"90071992547410" comes to more than can be kept exactly'],
    [{ coin_1: '90071992547409', coin_2: '1' }, {}, 'coin_2', '"1" comes to more than can be kept exactly'],
  ])('refuses the row for %j', (cells, overrides, field, says) => {
    const { problems } = count(cells as Record<string, string>, overrides);
    expect(problems).toMatchObject([{ code: 'bad-cell', field, says, spoils: 'row' }]);
  });

  it('says why a header can be read in two ways', () => {
    const { problems } = count({ '1.000': '1' }, { currency: 'KWD', decimals: 3 });
    expect(problems).toMatchObject([{ says: expect.stringContaining('"1.000" can be read as 1000 and as 1.000') }]);
  });
});
