import { describe, expect, it } from 'vitest';
import { matchDeposits } from '../../src/accounts/match-deposits.js';
import { decimalsFromRoster, Roster, readDeposits } from '../../src/sheets/index.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';
import { at, COMPLETE, HEADER, match, nights, paid, ROSTER, show, shown } from './match-rows.js';

describe('matchDeposits', () => {
  it('matches a day of sales with the deposit of a day later, gross, whatever the fees', () => {
    const { matches, totals } = match({
      counters: nights([1256, 480], { device: 'CR-1' }),
      deposits: ['M1,,2026-11-02,12.56,0.31,12.25,,', 'M1,,2026-11-03,4.80,0.12,4.68,,'],
    });
    expect(matches).toMatchObject([
      {
        machine: 'M1',
        location: 'Hall',
        device: 'CR-1',
        currency: 'EUR',
        decimals: 2,
        from: '2026-11-01T00:05:00',
        to: '2026-11-02T00:05:00',
        sales: 1256,
        salesIsFloor: false,
        gross: 1256,
        fees: 31,
        net: 1225,
        fee: { percent: '2.47' },
        difference: 0,
        state: 'matched',
        reason: null,
        deposits: [{ place: { row: 2 } }],
        findings: [],
      },
      { sales: 480, gross: 480, fee: { percent: '2.50' }, state: 'matched' },
    ]);
    expect(matches[0]!.intervals).toHaveLength(1);
    // 43 / 1736 = 2.4769… %, of the sums and not the mean of the two rates.
    expect(totals).toEqual([
      {
        currency: 'EUR',
        decimals: 2,
        deposits: 2,
        gross: 1736,
        fees: 43,
        net: 1693,
        fee: { fees: 43, gross: 1736, percent: '2.48' },
        withoutFees: 0,
        sales: { matched: 1736, differing: 0, missing: 0, extra: 0, open: 0, unclear: 0 },
      },
    ]);
  });

  it('matches several days with one deposit: by its stated period, or as the days since the last one', () => {
    const counters = nights([100, 250, 0, 75, 300, 125]);
    const both = ['425 425 matched 0', '425 425 matched 0'];
    expect(shown({ counters, deposits: paid([6, 425, 1, 4], [9, 425, 5, 6]) })).toEqual(both);
    expect(shown({ counters, deposits: paid([6, 425], [9, 425]) })).toEqual(both);
  });

  it('matches a week between two reads with several deposits', () => {
    const counters = nights([], {}, '10:00').concat([{ at: at(8, '10:00'), cash: 0, card: 51_000 }]);
    expect(shown({ counters, deposits: paid([3, 200], [5, 300], [9, 500]) })).toEqual(['1000 1000 matched 0']);
  });

  it('says by how much a deposit differs, once those around it pin it down', () => {
    const { matches } = match({
      counters: nights([1000, 2000, 3000]),
      deposits: paid([2, 1000, 1, 1], [3, 1800, 2, 2], [4, 3000, 3, 3]),
    });
    expect(matches.map(show)).toEqual(['1000 1000 matched 0', '2000 1800 differing -200', '3000 3000 matched 0']);
    expect(matches[1]!.findings).toMatchObject([
      {
        code: 'deposit-differs',
        severity: 'doubt',
        machine: 'M1',
        file: 'deposits.csv',
        row: 3,
        message:
          'Machine M1: 20.00 EUR sold by card from 2026-11-02 to 2026-11-03, 18.00 EUR deposited on 2026-11-03: 2.00 EUR too little.',
      },
    ]);
    expect(
      shown({
        counters: nights([1000, 2000, 3000]),
        deposits: paid([2, 1000, 1, 1], [3, 2300, 2, 2], [4, 3000, 3, 3]),
      })[1],
    ).toBe('2000 2300 differing 300');
  });

  it('misses a deposit only once it is due, and only for days that the sheet covers', () => {
    const counters = nights([100, 200, 400, 800, 1600]);
    // The sheet goes to the 5th: what was sold on the 2nd is due by then with a window of 3 days, later sales are not.
    expect(shown({ counters, deposits: paid([2, 100, 1, 1], [5, 800, 4, 4]) })).toEqual([
      '100 100 matched 0',
      '600 - open not-due -',
      '800 800 matched 0',
      '1600 - open not-due -',
    ]);
    const options = { completeTo: '2026-11-20' };
    const { matches } = match({ counters, deposits: paid([2, 100, 1, 1], [5, 800, 4, 4]), options });
    expect(matches.map(show)).toEqual([
      '100 100 matched 0',
      '600 - missing -600',
      '800 800 matched 0',
      '1600 - missing -1600',
    ]);
    expect(matches[1]!.findings).toMatchObject([
      {
        code: 'deposit-missing',
        file: 'read-3.dex',
        message: 'Machine M1: 6.00 EUR sold by card from 2026-11-02 to 2026-11-04, and no deposit for it.',
      },
    ]);
    expect(shown({ counters, deposits: paid([7, 1600, 5, 5]), options })).toEqual([
      '1500 - open before-sheet -',
      '1600 1600 matched 0',
    ]);
  });

  it('has nothing due without a sheet, and everything when an empty one is said to be complete', () => {
    const counters = nights([100, 200]);
    expect(shown({ counters, deposits: [] })).toEqual(['300 - open not-due -']);
    expect(shown({ counters, deposits: [], options: { completeTo: '2026-11-05' } })).toEqual(['300 - missing -300']);
    expect(shown({ counters, deposits: [], options: { completeTo: '2026-11-04' } })).toEqual([
      '100 - missing -100',
      '200 - open not-due -',
    ]);
  });

  it('finds a deposit without sales, but only where its days lie within those of the reads', () => {
    const counters = nights([0, 0, 0, 500, 0, 0, 0, 0, 0, 0]);
    const { matches } = match({ counters, deposits: paid([5, 500, 4, 4], [8, 70, 7, 7]) });
    expect(matches.map(show)).toEqual(['500 500 matched 0', '- 70 extra 70']);
    expect(matches[1]!.findings).toMatchObject([
      {
        code: 'deposit-extra',
        row: 3,
        message: 'Machine M1: 0.70 EUR deposited on 2026-11-08, and nothing sold by card that it could be for.',
      },
    ]);
    // For sales before the first read, or after the last.
    expect(shown({ counters, deposits: paid([2, 45]) })).toEqual(['- 45 open outside-reads -', '500 - open not-due -']);
    expect(shown({ counters, deposits: paid([5, 500, 4, 4], [12, 45, 9, 12]) })).toEqual([
      '500 500 matched 0',
      '- 45 open outside-reads -',
    ]);
  });

  it('does not choose between two readings that are equally good, and says so', () => {
    const { matches } = match({
      counters: nights([500, 500, 300]),
      deposits: paid([3, 500], [4, 300]),
      options: COMPLETE,
    });
    expect(matches.map(show)).toEqual(['1000 500 unclear equally-good -500', '300 300 matched 0']);
    expect(matches[0]!.findings).toMatchObject([
      {
        code: 'deposit-unclear',
        message:
          'Machine M1: 10.00 EUR sold by card from 2026-11-01 to 2026-11-03, 5.00 EUR deposited on 2026-11-03. More than one way to put them together is equally good; none was chosen.',
        advice: 'Give the days that each deposit is for (period_from, period_to).',
      },
    ]);
    // The stated days choose.
    expect(
      shown({
        counters: nights([500, 500, 300]),
        deposits: paid([3, 500, 2, 2], [4, 300, 3, 3]),
        options: COMPLETE,
      }),
    ).toEqual(['500 - missing -500', '500 500 matched 0', '300 300 matched 0']);
  });

  it('matches as a whole what fits only as a whole', () => {
    // 10 and 20 against 12 and 18: no day's own, though both deposits are for these days.
    const { matches } = match({ counters: nights([1000, 2000]), deposits: paid([2, 1200, 1, 1], [3, 1800, 1, 2]) });
    expect(matches.map(show)).toEqual(['3000 3000 matched in-total 0']);
    expect(matches[0]!.findings).toMatchObject([
      { code: 'deposit-unclear', severity: 'note', row: 2, related: [{ row: 3 }] },
    ]);
  });

  it('takes the sales to be paid off in the order they were made: what is left over is the latest', () => {
    const given = { counters: nights([500, 500, 500]), deposits: paid([2, 500], [3, 500]) };
    expect(shown({ ...given, options: { completeFrom: '2026-11-01' } })).toEqual([
      '500 500 matched 0',
      '500 500 matched 0',
      '500 - open not-due -',
    ]);
    // A sheet that begins on the 2nd may lack the deposit for the 1st, as well as that for the 3rd.
    expect(shown(given)).toEqual(['1500 1000 unclear equally-good -500']);
  });

  describe('with reads that are not taken when the processor ends its day', () => {
    const counters = nights([100, 200, 400], {}, '10:00');

    it('claims no difference that the first or last day can explain', () => {
      const { matches } = match({ counters, deposits: paid([4, 390, 2, 3]), options: COMPLETE });
      expect(matches.map(show)).toEqual(['700 390 unclear edges -310']);
      expect(matches[0]!.findings[0]!.message).toContain('Reads and deposits do not begin and end together');
    });

    it('claims what is beyond that', () => {
      const { matches } = match({ counters, deposits: paid([4, 150, 2, 3]), options: COMPLETE });
      expect(matches.map(show)).toEqual(['700 150 differing edges >=-50']);
      expect(matches[0]!.findings[0]!.message).toMatch(
        /at least 0\.50 EUR too little\. Reads and deposits do not begin/,
      );
      expect(shown({ counters, deposits: paid([4, 720, 2, 3]), options: COMPLETE })).toEqual([
        '700 720 differing edges >=20',
      ]);
    });

    it('allows for sales after the last read', () => {
      expect(shown({ counters, deposits: paid([6, 720, 1, 5]) })).toEqual(['700 720 open outside-reads -']);
      expect(shown({ counters, deposits: paid([6, 690, 1, 5]) })).toEqual(['700 690 differing edges >=-10']);
    });

    it('allows for sales that are not due when nothing states the days of a deposit', () => {
      expect(shown({ counters, deposits: paid([4, 650]) })).toEqual(['700 650 open before-sheet -']);
      expect(shown({ counters, deposits: paid([4, 650]), options: COMPLETE })).toEqual([
        '700 650 differing edges >=-50',
      ]);
    });
  });

  describe('with reads at night and others between them', () => {
    const counters: Counters[] = [
      { at: at(1), cash: 0, card: 50_000 },
      { at: at(1, '10:00'), cash: 0, card: 50_070 },
      { at: at(1, '15:00'), cash: 0, card: 50_080 },
      { at: at(2), cash: 0, card: 50_100 },
      { at: at(2, '10:00'), cash: 0, card: 50_250 },
      { at: at(3, '09:00'), cash: 0, card: 50_300 },
    ];

    it('adds up to the days, and leaves what begins or ends inside of a day to be judged by both', () => {
      const { matches } = match({ counters, deposits: paid([2, 90, 1, 1], [3, 190, 2, 2]), options: COMPLETE });
      expect(matches.map(show)).toEqual(['100 90 differing -10', '200 190 unclear edges -10']);
      expect(matches[0]!.intervals).toHaveLength(3);
    });

    it('claims nothing that equal sums by chance may have brought about', () => {
      const chance = match({ counters, deposits: paid([2, 100, 1, 1], [3, 150, 2, 2]), options: COMPLETE }).matches;
      expect(chance.at(-1)!.findings[0]!.message).toBe(
        'Machine M1: 0.50 EUR sold by card from 2026-11-02 to 2026-11-03, and no deposit of their own. Reads and deposits do not begin and end together, which can explain it.',
      );
      // 150 up to 10:00 is not what was sold on the 2nd: the rest of it is unclear, not missing.
      expect(chance.map(show)).toEqual(['100 100 matched 0', '150 150 matched 0', '50 - unclear edges -50']);
      // The 2nd's own 150 are matched, and another deposit of the day may be for the 50 that end on the 3rd.
      const deposits = paid([3, 150, 2, 2], [3, 25, 2, 2]);
      expect(shown({ counters: counters.slice(3), deposits, options: COMPLETE })).toContain('50 25 unclear edges -25');
    });

    it('does not call a deposit extra where sales that end inside of its days may be for it', () => {
      const weekly: Counters[] = [1, 5, 9, 13].map((day, i) => ({
        at: at(day, '10:00'),
        cash: 0,
        card: 50_000 + i * 500,
      }));
      const deposits = paid([5, 500, 1, 5], [7, 40, 6, 7], [9, 500, 5, 9], [13, 500, 9, 13]);
      const states = match({ counters: weekly, deposits, options: COMPLETE }).matches;
      expect(states.map(show)).toContain('- 40 unclear edges 40');
      expect(states.find(({ gross }) => gross === 40)!.findings[0]!.message).toBe(
        'Machine M1: 0.40 EUR deposited on 2026-11-07, and no sales of its own. Reads and deposits do not begin and end together, which can explain it.',
      );
    });
  });

  it('puts sales of days that are partly before the sheet to neither side', () => {
    const counters = nights([100, 200, 400]).filter((_, i) => i !== 1);
    expect(shown({ counters, deposits: paid([2, 150], [4, 400, 3, 3]) })).toEqual([
      '300 150 open before-sheet -',
      '400 400 matched 0',
    ]);
  });

  it('knows no sum of cash that was booked as card sales and is not known in full', () => {
    const counters: Counters[] = [
      { at: at(1), cash: 0, card: 50_000, cashIn: 10_000, more: ['CA8**0'] },
      { at: at(2), cash: 0, card: 53_000, cashIn: 12_000, more: ['CA8**0'] },
    ];
    expect(shown({ counters, deposits: paid([2, 900, 1, 1]), options: COMPLETE })).toEqual([
      '1000 900 unclear cash-as-card -100',
    ]);
  });

  it('compares separately what has no day in common', () => {
    const counters = nights([1000, 0, 0, 0, 2000]);
    const options = { completeTo: '2026-11-30' };
    expect(shown({ counters, deposits: paid([2, 900, 1, 1], [6, 2100, 5, 5]), options })).toEqual([
      '1000 900 differing -100',
      '2000 2100 differing 100',
    ]);
    // Linked by one that covers both, even if it comes last.
    expect(shown({ counters, deposits: paid([2, 900, 1, 1], [6, 2100, 5, 5], [7, 50, 1, 5]), options })).toEqual([
      '3000 3050 differing 50',
    ]);
  });

  describe('with two devices in one machine', () => {
    const counters: Counters[] = [
      { at: at(1), card: 0, card2: 0, device: 'CR-1', device2: 'CR-2' },
      { at: at(2), card: 500, card2: 700, device: 'CR-1', device2: 'CR-2' },
    ];

    it('takes them apart where every deposit names its device', () => {
      const { matches } = match({
        counters,
        deposits: [',CR-1,2026-11-02,5,,,,', 'M1,CR-2,2026-11-02,6,,,2026-11-01,2026-11-01'],
      });
      expect(matches.map((one) => `${one.device}: ${show(one)}`)).toEqual([
        'CR-1: 500 500 matched 0',
        'CR-2: 700 600 differing -100',
      ]);
    });

    it('takes them together where one does not', () => {
      const deposits = [',CR-1,2026-11-02,5,,,,', 'M1,,2026-11-02,7,,,,'];
      expect(match({ counters, deposits }).matches.map((one) => `${one.device}: ${show(one)}`)).toEqual([
        'null: 1200 1200 matched 0',
      ]);
      // A device that no read shows, in a machine that is named: the machine decides.
      expect(shown({ counters, deposits: ['M1,CR-9,2026-11-02,12,,,,'] })).toEqual(['1200 1200 matched 0']);
    });

    it('follows a device that was moved from one place to the other', () => {
      const moved: Counters[] = [...counters, { at: at(3), card: 900, card2: 1000, device: 'CR-2', device2: 'CR-1' }];
      expect(shown({ counters: moved, deposits: [',CR-1,2026-11-02,12,,,,', ',CR-1,2026-11-03,7,,,,'] })).toEqual([
        '1200 1200 matched 0',
        '700 700 matched 0',
      ]);
    });
  });

  describe('with a device that was moved to another machine', () => {
    const counters: Counters[] = [
      ...nights([100, 200], { device: 'CR-1' }),
      { asset: 'A2', at: at(10), cash: 0, card: 0, device: 'CR-1' },
      { asset: 'A2', at: at(11), cash: 0, card: 400, device: 'CR-1' },
    ];

    it('goes by the days', () => {
      const deposits = [',CR-1,2026-11-02,1,,,,', ',CR-1,2026-11-03,2,,,,', ',CR-1,2026-11-11,4,,,,'];
      const currency = `${HEADER},currency`;
      const { matches } = match({ counters, deposits: deposits.map((row) => `${row},EUR`), header: currency });
      expect(matches.map((one) => `${one.machine} ${show(one)}`)).toEqual([
        'M1 100 100 matched 0',
        'M1 200 200 matched 0',
        'M2 400 400 matched 0',
      ]);
    });

    it('does not choose where the days do not', () => {
      const { matches } = match({
        counters,
        deposits: [',CR-1,2026-11-20,9,,,,', ',CR-1,2026-11-12,9,,,2026-11-01,2026-11-12'],
      });
      const lone = matches.filter(({ machine }) => machine === null);
      expect(lone.map(show)).toEqual(['- 900 unclear two-machines -', '- 900 unclear two-machines -']);
      expect(lone[0]!.findings[0]!.message).toBe(
        'Device CR-1: 9.00 deposited on 2026-11-12 for a card device that the reads show in another machine, or in several.',
      );
    });

    it('does not follow a row whose machine and device contradict each other', () => {
      const deposits = ['M1,CR-2,2026-11-02,1,,,,'];
      const others: Counters[] = [...nights([100]), ...nights([100], { asset: 'A2', device: 'CR-2' })];
      expect(match({ counters: others, deposits }).matches.at(-1)).toMatchObject({
        machine: 'M1',
        state: 'unclear',
        reason: 'two-machines',
      });
    });
  });

  describe('with deposits that no machine stands behind', () => {
    it.each([
      [
        'M9,,2026-11-02,1,,,,',
        'M9 - 100 extra unknown-machine 100',
        /for a machine that neither the reads nor the roster know/,
      ],
      [
        ',CR-9,2026-11-02,1,,,,',
        'null - 100 extra unknown-device 100',
        /^Device CR-9: 1\.00 deposited.* no read shows/,
      ],
      [
        'M2,,2026-11-02,1,,,,',
        'M2 - 100 unclear sales-not-known -',
        /^Machine M2: what was sold by card is not known; 1\.00 EUR was deposited/,
      ],
    ])('%s', (row, expected, message) => {
      const { matches } = match({ counters: nights([0]), deposits: [row] });
      expect(matches.map((one) => `${one.machine} ${show(one)}`)).toEqual([expected]);
      expect(matches[0]!.findings[0]!.message).toMatch(message);
    });

    it('says where the money is not that of the machine, and adds nothing across', () => {
      const header = `${HEADER},currency`;
      const { matches, totals } = match({
        counters: nights([100]),
        deposits: ['M1,,2026-11-02,1,,,,,USD', 'M1,,2026-11-02,1,,,,,KWD'],
        header,
      });
      expect(matches.map((one) => `${one.currency} ${show(one)}`)).toEqual([
        'EUR 100 - open before-sheet -',
        'USD - 100 unclear other-currency -',
        'KWD - 1000 unclear other-currency -',
      ]);
      expect(matches[1]).toMatchObject({ machine: 'M1', location: 'Hall', findings: [{ code: 'mixed-currency' }] });
      expect(totals.map(({ currency, gross, fees, withoutFees }) => [currency, gross, fees, withoutFees])).toEqual([
        ['EUR', 0, null, 0],
        ['USD', 100, null, 1],
        ['KWD', 1000, null, 1],
      ]);
    });
  });

  it('keeps what was taken back, and rows of fees alone, apart from sales', () => {
    const { matches, totals } = match({
      counters: nights([500]),
      deposits: ['M1,,2026-11-02,5.00,0.10,4.90,,', 'M1,,2026-11-02,-2.00,0.50,-2.50,,', 'M1,,2026-11-03,0,4,-4,,'],
    });
    expect(matches.map(show)).toEqual(['500 500 matched 0', '- -200 extra taken-back -200', '- 0 matched 0']);
    expect(matches[1]!.findings[0]!.message).toContain('-2.00 EUR on 2026-11-02: the processor took money back');
    expect(totals[0]).toMatchObject({ gross: 300, fees: 460, net: -160, fee: { percent: '153.33' } });
  });

  it('leaves deposits whose figures do not add up out of the fee rates, and says how many', () => {
    const { matches, totals } = match({
      counters: nights([500, 1000]),
      deposits: ['M1,,2026-11-02,5.00,0.10,4.80,,', 'M1,,2026-11-03,10.00,0.25,9.75,,'],
    });
    expect(matches.map(({ fees, net, fee }) => [fees, net, fee?.percent])).toEqual([
      [null, null, undefined],
      [25, 975, '2.50'],
    ]);
    expect(totals[0]).toMatchObject({
      gross: 1500,
      fees: 25,
      net: 975,
      fee: { gross: 1000, percent: '2.50' },
      withoutFees: 1,
    });
  });

  describe('with card sales that are not known', () => {
    it('says so, and matches what is known around them', () => {
      const [first, second, third, fourth] = nights([100, 200, 400]).map((each, i) => ({ ...each, cash: i * 100_000 }));
      const { card: _, ...without } = third!;
      const counters = [first!, second!, without, fourth!];
      const { matches } = match({
        counters,
        deposits: paid([2, 100, 1, 1], [3, 200, 2, 2]),
        options: { completeTo: '2026-11-30' },
      });
      expect(matches.map(show)).toEqual([
        '100 100 matched 0',
        '- 200 unclear sales-not-known -',
        '- - unclear sales-not-known -',
      ]);
      expect(matches[1]!.findings[0]!.message).toBe(
        'Machine M1: what was sold by card from 2026-11-02 to 2026-11-03 is not known; 2.00 EUR was deposited on 2026-11-03.',
      );
      expect(matches[2]!.findings[0]!.message).toBe(
        'Machine M1: what was sold by card from 2026-11-03 to 2026-11-04 is not known.',
      );
    });

    it('takes a machine without card counters to sell nothing by card, unless roster or deposit say otherwise', () => {
      const counters = [1, 2].map((day) => ({ at: at(day), cash: day * 100 }));
      const options = { completeTo: '2026-11-30' };
      const roster = 'machine,asset,currency,has_card\nM1,A1,EUR,';
      expect(shown({ counters, deposits: [], options, roster })).toEqual([]);
      expect(shown({ counters, deposits: paid([2, 100]), options, roster })).toEqual([
        '- 100 unclear sales-not-known -',
      ]);
      expect(shown({ counters, deposits: [], options })).toEqual(['- - unclear sales-not-known -']);
    });

    it('puts no deposit against sales between reads without a time', () => {
      const counters = [{ ...nights([100])[0]!, at: null }, nights([100])[1]!];
      const { matches } = match({ counters, deposits: paid([2, 100]) });
      expect(matches.map(show)).toEqual(['- 100 open outside-reads -', '100 - unclear no-time -']);
      expect(matches[1]!.findings[0]!.message).toContain('1.00 EUR sold by card between reads without a time');
      const unknown = [
        { at: null, cash: 0 },
        { at: null, cash: 5, card: 3 },
      ];
      expect(match({ counters: unknown, deposits: [] }).matches[0]!.findings[0]!.message).toBe(
        'Machine M1: card sales that are not known, between reads without a time.',
      );
    });
  });

  describe('with counters that started again', () => {
    const counters: Counters[] = [
      { at: at(1), cash: 90_000, card: 50_000, card2: 0, board: 'B1' },
      { at: at(2), cash: 500, card: 300, card2: 0, board: 'B2' },
    ];
    const options = { completeTo: '2026-11-30' };

    it.each([
      [300, '300 300 matched sales-floor 0', 'sales-floor'],
      [450, '300 450 unclear sales-floor 150', 'deposit-unclear'],
      [200, '300 200 differing edges >=-100', 'deposit-differs'],
    ])('takes the sales to be the least, against a deposit of %i', (gross, expected, code) => {
      const { matches } = match({ counters, deposits: paid([2, gross, 1, 1]), options });
      expect(matches.map(show)).toEqual([expected]);
      expect(matches[0]).toMatchObject({ salesIsFloor: true, findings: [{ code }] });
    });

    it('misses at least what they show', () => {
      const { matches } = match({ counters, deposits: [], options });
      expect(matches.map(show)).toEqual(['300 - missing sales-floor >=-300']);
      expect(matches[0]!.findings[0]!.message).toContain('at least 3.00 EUR sold by card');
    });

    it('takes a gap between intervals as a part that is not known', () => {
      const roster = rosterOf(ROSTER);
      const [first, , third] = intervalsOf(nights([100, 200, 400]), roster);
      const { rows } = readDeposits(
        { file: 'd.csv', content: `${HEADER}\n${paid([4, 700, 1, 3])}` },
        decimalsFromRoster(roster.books.machines, 2),
      );
      expect(matchDeposits([first!, third!], rows, roster).matches.map(show)).toEqual([
        '500 700 unclear sales-floor 200',
      ]);
    });
  });

  describe('with a machine that books cash sales as card sales (Evoca 9200 manual p. 87, N&W Opera Touch manual p. 65)', () => {
    // 30.00 on the card counters, 20.00 of that put in as cash.
    const counters: Counters[] = [
      { at: at(1), cash: 0, card: 50_000, cashIn: 10_000 },
      { at: at(2), cash: 0, card: 53_000, cashIn: 12_000 },
    ];
    const options = COMPLETE;

    it('matches a deposit of what was truly sold by card, and notes it', () => {
      const { matches } = match({ counters, deposits: paid([2, 1000, 1, 1]), options });
      expect(matches.map(show)).toEqual(['1000 1000 matched cash-as-card 0']);
      expect(matches[0]!.findings).toMatchObject([{ code: 'cash-as-card', severity: 'note' }]);
    });

    it('claims no difference and no missing deposit, since the split is an estimate', () => {
      expect(shown({ counters, deposits: paid([2, 900, 1, 1]), options })).toEqual([
        '1000 900 unclear cash-as-card -100',
      ]);
      const { matches } = match({ counters, deposits: [], options });
      expect(matches.map(show)).toEqual(['1000 - unclear cash-as-card -']);
      expect(matches[0]!.findings[0]!.message).toBe(
        'Machine M1: card sales from 2026-11-01 to 2026-11-02 cannot be told from cash sales that its card counters hold too, or may.',
      );
    });

    it('does not know in which of two devices the cash was booked', () => {
      const two = counters.map((one, i) => ({ ...one, card2: 100 * i, device: 'CR-1', device2: 'CR-2' }));
      expect(shown({ counters: two, deposits: ['M1,CR-1,2026-11-02,10,,,2026-11-01,2026-11-01'], options })).toEqual([
        '- 1000 unclear cash-as-card -',
        '- - unclear cash-as-card -',
      ]);
      // Where the other device counted nothing, it is.
      const one = two.map((each) => ({ ...each, card2: 0 }));
      expect(shown({ counters: one, deposits: ['M1,CR-1,2026-11-02,10,,,2026-11-01,2026-11-01'], options })).toEqual([
        '1000 1000 matched cash-as-card 0',
      ]);
    });
  });

  it('works without a roster, by what machines call themselves', () => {
    const counters = nights([100, 200]);
    const deposits = ['A1,,2026-11-02,1,,,,', 'S-A1,,2026-11-03,2,,,,'];
    const { matches } = match({ counters, deposits, roster: null });
    expect(matches.map((one) => `${one.machine} ${one.currency} ${show(one)}`)).toEqual([
      'A1 EUR 100 100 matched 0',
      'A1 EUR 200 200 matched 0',
    ]);
    expect(matchDeposits(intervalsOf(counters), []).matches).toHaveLength(1);
  });

  it('keeps machines and kinds of money apart', () => {
    const counters = [
      ...nights([100]),
      ...nights([100], { asset: 'A2' }),
      ...nights([300], { asset: 'A3', currency: 'GBP' }),
      ...nights([100], { asset: 'A2', currency: 'USD' }, '00:05', 8),
    ];
    const options = COMPLETE;
    const { matches, totals } = match({ counters, deposits: paid([2, 100, 1, 1]), options });
    expect(matches.map((one) => `${one.machine} ${one.currency} ${show(one)}`)).toContain('M2 EUR 100 - missing -100');
    expect(totals.map(({ currency }) => currency).sort()).toEqual(['EUR', 'GBP', 'USD']);
  });

  it.each([-1, 0.5, Number.NaN])('refuses a window of %s days', (windowDays) => {
    expect(() => matchDeposits([], [], new Roster(), { windowDays })).toThrow(RangeError);
  });

  it.each(['24:00', '6', ''])('refuses a day that ends at "%s"', (dayEndsAt) => {
    expect(() => matchDeposits([], [], new Roster(), { dayEndsAt })).toThrow(RangeError);
  });

  it('has nothing to say of nothing', () => {
    expect(matchDeposits([], [])).toEqual({ matches: [], totals: [] });
  });

  it('cuts days when the processor does', () => {
    const given = {
      counters: nights([100, 200, 400], {}, '06:05'),
      deposits: paid([2, 90, 1, 1], [3, 200, 2, 2]),
      options: COMPLETE,
    };
    expect(shown(given)).toContain('100 90 unclear edges -10');
    expect(shown({ ...given, options: { ...COMPLETE, dayEndsAt: '06:00' } })).toEqual([
      '100 90 differing -10',
      '200 200 matched 0',
      '400 - missing -400',
    ]);
  });

  it('holds to the window it is given', () => {
    const given = {
      counters: nights([100, 300, 0, 0, 0, 0, 0, 0, 0]),
      deposits: paid([2, 100, 1, 1], [6, 45, 5, 5], [10, 300]),
    };
    expect(shown(given)).toContain('300 - missing -300');
    expect(shown({ ...given, options: { windowDays: 7 } })).toContain('300 300 matched 0');
  });
});
