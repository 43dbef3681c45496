import { describe, expect, it } from 'vitest';
import { readCounts } from '../../src/sheets/index.js';
import { EURO, moneyIn, outline } from '../support/sheet-reading.js';

const read = (content: string, money = EURO) => readCounts({ file: 'counts.csv', content }, money);
const amounts = (content: string, money = EURO) => read(content, money).rows.map(({ coins, bills }) => [coins, bills]);

describe('readCounts', () => {
  it('reads every column', () => {
    const { rows, findings } = read(
      [
        'machine,visited_at,bag,coins,bills,route,driver,counted_at,note,paid_out,filled,float_issued,capture,coin_0.50,bill_5',
        'M1,2026-11-24 10:15,B1,12.50,35,North,D. Ray,2026-11-25,"wet, dried",0.50,10,20.00,a.txt,25,7',
        'M2,2026-11-24,,8.00,,,,,,,,,,,',
      ].join('\n'),
    );
    expect(rows).toEqual([
      {
        machine: 'M1',
        visitedAt: { date: '2026-11-24', time: '10:15:00' },
        bag: 'B1',
        coins: 1250,
        bills: 3500,
        route: 'North',
        driver: 'D. Ray',
        countedAt: '2026-11-25',
        note: 'wet, dried',
        paidOut: 50,
        filled: 1000,
        floatIssued: 2000,
        capture: 'a.txt',
        corrects: null,
        denominations: new Map([
          [50, 25],
          [500, 7],
        ]),
        place: { file: 'counts.csv', row: 2 },
      },
      {
        machine: 'M2',
        visitedAt: { date: '2026-11-24', time: null },
        bag: null,
        coins: 800,
        bills: null,
        route: null,
        driver: null,
        countedAt: null,
        note: null,
        paidOut: null,
        filled: null,
        floatIssued: null,
        capture: null,
        corrects: null,
        denominations: new Map(),
        place: { file: 'counts.csv', row: 3 },
      },
    ]);
    expect(findings).toEqual([]);
  });

  it.each([
    ['coins', [[1250, null]]],
    ['bills', [[null, 1250]]],
  ])('is content with a column of %s', (column, expected) => {
    expect(amounts(`machine,visited_at,${column}\nM1,2026-11-24,12.50`)).toEqual(expected);
  });

  it.each([
    ['machine,visited_at,bag\nM1,2026-11-24,B1', 'coins or bills', 'machine, visited_at, bag'],
    ['machine,visited at time,coins\nM1,2026-11-24,1', 'visited_at', 'machine, visited at time, coins'],
    ['bag\nB1', 'machine, visited_at, coins or bills', 'bag'],
  ])('is refused without a column it must have: %j', (content, expected, received) => {
    const { rows, findings } = read(content);
    expect(rows).toEqual([]);
    expect(findings).toMatchObject([
      { code: 'sheet-column-missing', severity: 'fault', file: 'counts.csv', expected, received },
    ]);
    expect(findings[0]!.message).toContain(`its columns are ${received}. No row of it is used.`);
  });

  it.each([
    [
      'negative coins',
      'M1,2026-11-24,-5.00,1.00,',
      'bad-cell 2 coins',
      /"-5.00" is below zero; expected an amount of 0 or more/,
    ],
    ['negative bills, in brackets', 'M1,2026-11-24,5.00,(1.00),', 'bad-cell 2 bills', /"\(1.00\)" is below zero/],
    ['negative hand moves', 'M1,2026-11-24,5.00,1.00,-1', 'bad-cell 2 paid_out', /"-1" is below zero/],
    [
      'too many decimals',
      'M1,2026-11-24,12.5055,1.00,',
      'bad-cell 2 coins',
      /has more decimals than the currency, which has 2/,
    ],
    [
      'another currency',
      'M1,2026-11-24,$12.50,1.00,',
      'bad-cell 2 coins',
      /is not in EUR, the currency of the machine/,
    ],
    ['an ambiguous date', 'M1,03/04/2026,12.50,1.00,', 'ambiguous-date 2 visited_at', /2026-03-04 and as 2026-04-03/],
    ['a day that does not exist', 'M1,2026-02-30,12.50,1.00,', 'bad-cell 2 visited_at', /no day of the calendar/],
    ['no date', 'M1,,12.50,1.00,', 'bad-cell 2 visited_at', /the cell is empty; expected a date such as 2026-11-24/],
    ['no machine', ',2026-11-24,12.50,1.00,', 'bad-cell 2 machine', /the cell is empty/],
    ['no money', 'M1,2026-11-24,,,1.00', 'bad-row 2', /gives neither coins nor bills/],
    [
      'an amount with a bare comma',
      'M1,2026-11-24,12,50,10,00,',
      'bad-row 2',
      /has 6 cells where the header has 5, as happens when an amount with a comma such as 12,50 stands without quotation marks/,
    ],
    [
      'an amount with a bare comma in a short row',
      'M1,2026-11-24,12,50',
      'bad-row 2',
      /has 4 cells where the header has 5/,
    ],
  ])('leaves out a bag with %s, and uses the others', (_, line, finding, message) => {
    const { rows, findings } = read(
      `machine,visited_at,coins,bills,paid_out\n${line}\nM2,2026-11-24,1.00,2.00,\nM3,2026-11-24,1.00,2.00,`,
    );
    expect(rows.map(({ machine }) => machine)).toEqual(['M2', 'M3']);
    expect(outline(findings)).toEqual([finding]);
    expect(findings[0]!.message).toMatch(message);
    expect(findings[0]!.message).toMatch(/^counts\.csv, row 2.*The row is left out; the other 2 rows are used\.$/);
  });

  it('names the machine of a bag it leaves out', () => {
    expect(read('machine,visited_at,coins\nM1,2026-11-24,x').findings).toMatchObject([{ machine: 'M1' }]);
    expect(read('machine,visited_at,coins\nM1,2026-11-24,12,50').findings).toMatchObject([{ machine: 'M1' }]);
  });

  it('refuses money whose decimals are not known', () => {
    const { rows, findings } = read('machine,visited_at,coins\nM1,2026-11-24,12.50', moneyIn(null, null));
    expect(rows).toEqual([]);
    expect(findings[0]!.message).toContain("since the decimals of this machine's money are not known");
  });

  it('keeps a bag whose time of counting cannot be read', () => {
    const { rows, findings } = read('machine,visited_at,coins,counted_at\nM1,2026-11-24,12.50,3/4/26');
    expect(rows).toMatchObject([{ coins: 1250, countedAt: null }]);
    expect(outline(findings)).toEqual(['ambiguous-date 2 counted_at']);
  });
});

describe('denominations in counts', () => {
  it('give coins and bills where their columns are empty or not there', () => {
    expect(amounts('machine,visited_at,0.50,2.00,5,coin_1\nM1,2026-11-24,3,1,2,4')).toEqual([[750, 1000]]);
    expect(
      amounts(
        'machine,visited_at,coins,bills,coin_0.50,bill_5\nM1,2026-11-24,,,3,1\nM2,2026-11-24,9.00,,3,\nM3,2026-11-24,,8,3,',
      ),
    ).toEqual([
      [150, 500],
      [900, null],
      [150, 800],
    ]);
  });

  it('leave a kind unknown of which no piece is given', () => {
    expect(amounts('machine,visited_at,coin_0.50,bill_5\nM1,2026-11-24,3,')).toEqual([[150, null]]);
  });

  it('are doubted where they differ from the columns, which are used', () => {
    const { rows, findings } = read('machine,visited_at,coins,bills,coin_0.50,bill_5\nM1,2026-11-24,12.00,5.00,25,2');
    expect(rows).toMatchObject([
      {
        coins: 1200,
        bills: 500,
        denominations: new Map([
          [50, 25],
          [500, 2],
        ]),
      },
    ]);
    expect(outline(findings)).toEqual(['bad-cell 2 coins', 'bad-cell 2 bills']);
    expect(findings[0]).toMatchObject({
      severity: 'doubt',
      message:
        'counts.csv, row 2, column coins: coins is 12.00 by its column and 12.50 by the pieces of each denomination; expected 12.50. The amount of the column is used.',
      expected: '12.50',
      received: '12.00',
    });
  });

  it('decide the kind by the smallest note, and the sheet says so once', () => {
    const { rows, findings } = read('machine,visited_at,2,5\nM1,2026-11-24,1,1\nM2,2026-11-24,2,2');
    expect(rows).toMatchObject([
      { coins: 200, bills: 500 },
      { coins: 400, bills: 1000 },
    ]);
    expect(findings.map(({ code, message }) => `${code}: ${message}`)).toEqual([
      'sheet-format: counts.csv was taken as follows: denominations of 5.00 EUR and more as bills, others as coins, where the header does not say.',
    ]);
  });

  describe('that may be coins or bills', () => {
    const unknown = moneyIn(null, 2);

    it('leave the bag out where nothing else is known', () => {
      const { rows, findings } = read('machine,visited_at,2,5\nM1,2026-11-24,1,1', unknown);
      expect(rows).toEqual([]);
      const undecided = findings.filter(({ code }) => code === 'bad-row');
      expect(undecided).toHaveLength(1);
      expect(undecided[0]!.message).toContain('has denominations that may be coins or bills');
    });

    it('are left aside where one of the amounts is missing', () => {
      const { rows, findings } = read('machine,visited_at,coins,2,5\nM1,2026-11-24,7.00,1,1', unknown);
      expect(rows).toMatchObject([{ coins: 700, bills: null }]);
      expect(findings.map(({ message }) => message)).toEqual([
        expect.stringMatching(/may be coins or bills.*They are left aside; the row is used\.$/),
      ]);
    });

    it('are held against the sum of both amounts', () => {
      const sheet = (coins: string) =>
        read(`machine,visited_at,coins,bills,2,5\nM1,2026-11-24,${coins},5.00,1,1`, unknown);
      expect(sheet('2.00').findings).toEqual([]);
      expect(sheet('3.00').findings).toMatchObject([{ code: 'bad-cell', expected: '7.00', received: '8.00' }]);
      expect(sheet('3.00').rows).toMatchObject([{ coins: 300, bills: 500 }]);
    });
  });

  it('leave the bag out where a piece cannot be read', () => {
    const { rows, findings } = read('machine,visited_at,coin_0.50,bill_5\nM1,2026-11-24,some,2\nM2,2026-11-24,1,2');
    expect(rows).toMatchObject([{ machine: 'M2' }]);
    expect(outline(findings)).toEqual(['bad-cell 2 coin_0.50']);
  });

  it('can have decimal commas in their headers', () => {
    expect(amounts('machine;visited_at;0,50;2\nM1;2026-11-24;3;1')).toEqual([[350, null]]);
  });
});

describe('bags that come twice in counts', () => {
  const header = 'machine,visited_at,bag,coins\n';

  it('are one where the rows are the same in every cell', () => {
    const { rows, findings } = read(`${header}M1,2026-11-24,B1,12.50\nM1,2026-11-24,B1,12.50`);
    expect(rows).toHaveLength(1);
    expect(findings).toMatchObject([
      {
        code: 'duplicate-row',
        row: 3,
        message:
          'counts.csv, row 3, column bag: is the same as row 2 in every cell, bag "B1" included. The row is left out; the other row is used.',
        related: [{ row: 2 }],
      },
    ]);
  });

  it('are kept, with a doubt, where the rows differ', () => {
    const { rows, findings } = read(`${header}M1,2026-11-24,B1,12.50\nM2,2026-11-24,B1,12.50\nM1,2026-11-24,B1,12.50`);
    expect(rows.map(({ machine }) => machine)).toEqual(['M1', 'M2']);
    expect(findings.map(({ message }) => message)).toEqual([
      'counts.csv, row 3, column bag: bag "B1" was counted in row 2 already, with other cells. Both rows are used.',
      'counts.csv, row 4, column bag: is the same as row 2 in every cell, bag "B1" included. The row is left out; the other 2 rows are used.',
    ]);
  });

  it('are kept, with a doubt, where no bag is named', () => {
    const { rows, findings } = read(`${header}M1,2026-11-24,,12.50\nM1,2026-11-24,,12.50\nM1,2026-11-24,,13.50`);
    expect(rows).toHaveLength(3);
    expect(findings.map(({ message }) => message)).toEqual([
      'counts.csv, row 3, column bag: is the same as row 2 in every cell and names no bag. Both rows are used.',
    ]);
  });
});
