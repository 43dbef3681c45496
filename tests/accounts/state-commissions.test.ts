import { describe, expect, it } from 'vitest';
import { writeFraction } from '../../src/accounts/fraction.js';
import type { LocationStatement } from '../../src/accounts/location-statement.js';
import { stateCommissions } from '../../src/accounts/state-commissions.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';

const HEADER =
  'machine,asset,location,currency,has_cash,has_card,commission_percent,commission_base,tax_percent,tax_included';
const NIGHT = '2026-11-16 00:05';
const LATER = '2026-11-23 00:05';

function state(rows: string, counters: readonly Counters[], period = {}): LocationStatement[] {
  const roster = rosterOf(`${HEADER}\n${rows}`);
  return stateCommissions(intervalsOf(counters, roster), roster, period);
}

/** One machine that sold for that much cash and by card in a week. */
function week(
  asset: string,
  cash: number | undefined,
  card: number | undefined,
  more: Partial<Counters> = {},
): Counters[] {
  const from = {
    asset,
    ...(cash === undefined ? {} : { cash: 900_000 }),
    ...(card === undefined ? {} : { card: 50_000 }),
  };
  const to = {
    asset,
    ...(cash === undefined ? {} : { cash: 900_000 + cash }),
    ...(card === undefined ? {} : { card: 50_000 + card }),
  };
  return [
    { at: NIGHT, ...from, ...more },
    { at: LATER, ...to, ...more },
  ];
}

const show = (statement: LocationStatement) => {
  const rounded = (name: 'tax' | 'base' | 'commission' | 'taxOnTop') => {
    const found = statement[name];
    return found === null ? null : `${found.amount} ${writeFraction(found.remainder)}`;
  };
  const { gross, net } = statement;
  return { gross, tax: rounded('tax'), net, base: rounded('base'), commission: rounded('commission') };
};

describe('stateCommissions', () => {
  it('takes commission from cash sales plus card sales (SEM 9900X manual, French edition, p. 18)', () => {
    // The manual: 9875.60 at the last visit and 10001.20 now are 125.60 sold; commission is on cash plus card sales.
    const [statement] = state('M1,A1,Hall 3,EUR,yes,yes,10,gross,,', [
      { at: NIGHT, cash: 987_560, card: 40_000 },
      { at: LATER, cash: 1_000_120, card: 44_440 },
    ]);
    expect(statement).toMatchObject({
      location: 'Hall 3',
      currency: 'EUR',
      decimals: 2,
      from: '2026-11-16T00:05:00',
      to: '2026-11-23T00:05:00',
      cashSales: 12_560,
      cardSales: 4_440,
      gross: 17_000,
      floors: { gross: false, commission: false },
      findings: [],
    });
    expect(show(statement!)).toEqual({ gross: 17_000, tax: null, net: null, base: '17000 0', commission: '1700 0' });
  });

  it('takes the tax contained out of gross sales: gross × r / (1 + r)', () => {
    // 119.00 with 19 % contained is 100.00 and 19.00, by definition of a percentage.
    const [gross, net] = ['gross', 'net'].map(
      (base) => state(`M1,A1,Hall,EUR,,,12.5,${base},19,`, week('A1', 10_000, 1_900))[0]!,
    );
    expect(show(gross!)).toEqual({
      gross: 11_900,
      tax: '1900 0',
      net: 10_000,
      base: '11900 0',
      commission: '1488 -1/2',
    });
    expect(show(net!)).toEqual({ gross: 11_900, tax: '1900 0', net: 10_000, base: '10000 0', commission: '1250 0' });
    expect(net!.taxOnTop).toBeNull();
  });

  it('rounds halves to the even one, and states the remainder (IEEE 754-2019, 4.3.1, roundTiesToEven)', () => {
    const commission = (cash: number) => show(state('M1,A1,H,EUR,,,2.5,gross,,', week('A1', cash, 0))[0]!).commission;
    expect([20, 60, 100, 101, 102].map(commission)).toEqual(['0 1/2', '2 -1/2', '2 1/2', '3 -19/40', '3 -9/20']);
  });

  it('rounds once for the location, not machine by machine', () => {
    const rows = ['M1,A1,Hall,EUR,,,1,gross,,', 'M2,A2,Hall,EUR,,,1,gross,,', 'M3,A3,Hall,EUR,,,1,gross,,'].join('\n');
    const counters = [...week('A1', 50, 0), ...week('A2', 50, 0), ...week('A3', 50, 0)];
    // Each half a cent: by machine 0 + 0 + 0, together 1.50 cents, which is 2.
    expect(show(state(rows, counters)[0]!)).toMatchObject({ gross: 150, commission: '2 -1/2' });
  });

  it('keeps tax and net together at gross where both would be rounded the same way', () => {
    // A gross of 3 with 100 % contained: 1.5 each.
    const [statement] = state('M1,A1,H,EUR,,,50,net,100,', week('A1', 3, 0));
    expect(show(statement!)).toEqual({ gross: 3, tax: '2 -1/2', net: 1, base: '1 1/2', commission: '1 -1/4' });
  });

  it('adds machines with rates of their own, each exactly', () => {
    const rows = ['M1,A1,Hall,EUR,,,10,net,19,yes', 'M2,A2,Hall,EUR,,,5,gross,7,', 'M3,A3,Hall,EUR,,,0,,7,'].join('\n');
    const [statement] = state(rows, [...week('A1', 1000, 0), ...week('A2', 0, 1000), ...week('A3', 500, 500)]);
    // By hand: tax 19000/119 + 2 × 7000/107 = 3699000/12733 = 290 + 6430/12733; commission 100000/1190 + 50 = 15950/119.
    expect(show(statement!)).toEqual({
      gross: 3000,
      tax: `291 ${writeFraction({ numerator: 6430n - 12733n, denominator: 12733n })}`,
      net: 2709,
      // 1000 − 160 (159 + 79/119 rounded) + 1000; M3 pays none, so it is in no base.
      base: '1840 40/119',
      commission: '134 4/119',
    });
    expect(statement!.lines.map(({ machine, sales }) => `${machine.machine} ${sales}`)).toEqual([
      'M1 1000',
      'M2 1000',
      'M3 1000',
    ]);
  });

  it('puts tax that the prices do not contain on top, and takes commission of net as of gross', () => {
    const [statement] = state('M1,A1,H,EUR,,,10,net,8.875,no', week('A1', 10_000, 0));
    expect(show(statement!)).toEqual({ gross: 10_000, tax: '0 0', net: 10_000, base: '10000 0', commission: '1000 0' });
    // 8.875 % of 100.00 is 8.875, a half of a cent: to the even 8.88.
    expect(statement!.taxOnTop).toMatchObject({ amount: 888, remainder: { numerator: -1n, denominator: 2n } });
  });

  it('states what a machine has sold by card alone, where the roster says it takes no cash', () => {
    const [statement] = state('M1,A1,H,EUR,no,yes,10,gross,,', week('A1', undefined, 2_000));
    expect(statement).toMatchObject({ cashSales: 0, cardSales: 2_000, gross: 2_000 });
  });

  it('takes a machine without card counters to sell for cash alone, unless the roster says it has a reader', () => {
    expect(state('M1,A1,H,EUR,,,10,gross,,', week('A1', 700, undefined))[0]).toMatchObject({
      cardSales: 0,
      gross: 700,
    });
    const [statement] = state('M1,A1,H,EUR,,yes,10,gross,,', week('A1', 700, undefined));
    expect(statement).toMatchObject({
      cashSales: 700,
      cardSales: null,
      gross: null,
      tax: null,
      base: null,
      commission: null,
    });
    expect(statement!.findings).toMatchObject([
      {
        code: 'sales-not-known',
        machine: 'M1',
        row: 2,
        message:
          'What machine M1 sold is not known in full, and the statement with it. Known of it: cash sales 7.00 EUR.',
      },
    ]);
  });

  it('is not known where cash sales are not: absent is not zero', () => {
    const [statement] = state('M1,A1,H,EUR,yes,yes,10,gross,20,', week('A1', undefined, 500));
    expect(statement).toMatchObject({ cashSales: null, cardSales: 500, gross: null, net: null, commission: null });
    expect(statement!.findings[0]!.message).toContain('Known of it: card sales 5.00 EUR.');
  });

  it('is not known while one machine of the location has no reads', () => {
    const rows = ['M1,A1,Hall,EUR,,,10,gross,,', 'M2,A2,Hall,,,,10,gross,,'].join('\n');
    const [statement, ...others] = state(rows, week('A1', 500, 0));
    expect(others).toEqual([]);
    expect(statement).toMatchObject({ gross: null, commission: null, from: '2026-11-16T00:05:00' });
    expect(statement!.findings).toMatchObject([{ code: 'sales-not-known', machine: 'M2' }]);
    expect(statement!.lines[1]).toMatchObject({ from: null, to: null, sales: null });
  });

  it('leaves an inactive machine without reads out, and keeps one that still sold', () => {
    const header = `${HEADER},active`;
    const of = (counters: readonly Counters[]) => {
      const roster = rosterOf(`${header}\nM1,A1,Hall,EUR,,,10,gross,,,yes\nM2,A2,Hall,EUR,,,10,gross,,,no`);
      return stateCommissions(intervalsOf(counters, roster), roster);
    };
    expect(of(week('A1', 500, 0))).toMatchObject([{ gross: 500, lines: [{ machine: { machine: 'M1' } }] }]);
    expect(of([...week('A1', 500, 0), ...week('A2', 40, 0)])).toMatchObject([{ gross: 540 }]);
    expect(of([])).toMatchObject([{ gross: null, currency: 'EUR', decimals: 2, from: null, to: null }]);
  });

  it('makes no statement where no rate is stated, and one for each machine without a location', () => {
    const rows = ['M1,A1,,EUR,,,10,gross,,', 'M2,A2,,EUR,,,,,19,', 'M3,A3,Hall,EUR,,,,,,', 'M4,A4,,,,,10,gross,,'].join(
      '\n',
    );
    const counters = [...week('A1', 1, 0), ...week('A2', 2, 0), ...week('A3', 4, 0)];
    expect(
      state(rows, counters).map(({ location, gross, currency, decimals }) => [location, gross, currency, decimals]),
    ).toEqual([
      [null, 1, 'EUR', 2],
      [null, 2, 'EUR', 2],
      [null, null, null, null],
    ]);
  });

  it('never adds two currencies', () => {
    const rows = ['M1,A1,Hall,,,,10,gross,,', 'M2,A2,Hall,,,,10,gross,,', 'M3,A3,Hall,GBP,,,10,gross,,'].join('\n');
    const statements = state(rows, [...week('A1', 500, 0), ...week('A2', 300, 0, { currency: 'USD' })]);
    expect(statements.map(({ currency, gross }) => [currency, gross])).toEqual([
      ['EUR', 500],
      ['USD', 300],
      ['GBP', null],
    ]);
    expect(statements[0]!.findings).toMatchObject([
      { code: 'mixed-currency', message: expect.stringContaining('Hall has sales in 3 kinds of money') },
    ]);
    const alone = state('M1,A1,,,,,10,gross,,', [
      { at: '2026-11-01 00:05', cash: 1 },
      { at: '2026-11-02 00:05', cash: 3 },
      { at: '2026-11-03 00:05', cash: 7, currency: 'USD' },
      { at: '2026-11-04 00:05', cash: 15, currency: 'USD' },
    ]);
    // The day on which the currency changed is not known in either.
    expect(alone.map(({ currency, gross }) => [currency, gross])).toEqual([
      ['EUR', 2],
      ['USD', null],
    ]);
    expect(alone[0]!.findings[0]!.message).toContain('Machine M1 has sales in 2 kinds of money');
  });

  it('says so where figures are floors: counters started again', () => {
    const [statement] = state('M1,A1,Hall,EUR,,,10,gross,,', [
      { at: NIGHT, cash: 900_000, card: 50_000, card2: 0, board: 'B1' },
      { at: LATER, cash: 700, card: 300, card2: 0, board: 'B2' },
    ]);
    expect(statement).toMatchObject({ gross: 1000, floors: { gross: true, commission: true } });
    expect(show(statement!).commission).toBe('100 0');
    expect(statement!.findings).toMatchObject([{ code: 'sales-floor', machine: 'M1' }]);
  });

  it('says so where a part of the time is in no interval', () => {
    const roster = rosterOf(`${HEADER}\nM1,A1,Hall,EUR,,,10,gross,,`);
    const days = [1, 2, 3, 4].map((day) => ({ at: `2026-11-0${day} 00:05`, cash: day * 100, card: 0 }));
    const [first, , third] = intervalsOf(days, roster);
    expect(stateCommissions([first!, third!], roster)).toMatchObject([{ gross: 200, floors: { gross: true } }]);
    expect(stateCommissions(intervalsOf(days, roster), roster)).toMatchObject([
      { gross: 300, floors: { gross: false } },
    ]);
  });

  it('notes machines that book cash sales as card sales (Evoca 9200 manual p. 87), and tells them apart as deposits do', () => {
    const [statement] = state('M1,A1,Hall,EUR,,,10,gross,,', [
      { at: NIGHT, cash: 0, card: 50_000, cashIn: 10_000 },
      { at: LATER, cash: 0, card: 53_000, cashIn: 12_000 },
    ]);
    // 30.00 on the card counters, 20.00 of that put in as cash: matchDeposits holds a deposit against 10.00.
    expect(statement).toMatchObject({ cashSales: 2000, cardSales: 1000, gross: 3000 });
    expect(statement!.lines).toMatchObject([{ isCashBookedAsCard: true, cashInside: 2000 }]);
    expect(show(statement!).commission).toBe('300 0');
    expect(statement!.findings).toMatchObject([{ code: 'cash-as-card', severity: 'note', machine: 'M1' }]);
  });

  describe('with figures of which some are floors', () => {
    const restarted = (asset: string): Counters[] => [
      { asset, at: NIGHT, cash: 900_000, card: 50_000, card2: 0, board: 'B1' },
      { asset, at: LATER, cash: 700, card: 300, card2: 0, board: 'B2' },
    ];
    const floorsOf = (rows: string, counters: readonly Counters[]): string[] =>
      Object.entries(state(rows, counters)[0]!.floors)
        .filter(([, is]) => is)
        .map(([name]) => name);

    it('names each that is one', () => {
      expect(floorsOf('M1,A1,Hall,EUR,,,10,net,19,', restarted('A1'))).toEqual([
        'cashSales',
        'cardSales',
        'gross',
        'tax',
        'net',
        'base',
        'commission',
      ]);
      expect(floorsOf('M1,A1,Hall,EUR,,,10,net,19,no', restarted('A1'))).toContain('taxOnTop');
    });

    it('names none that does not grow with the sales of that machine', () => {
      const rows = 'M1,A1,Hall,EUR,,,0,,0,\nM2,A2,Hall,EUR,,,10,net,19,';
      expect(floorsOf(rows, [...restarted('A1'), ...week('A2', 500, 500)])).toEqual([
        'cashSales',
        'cardSales',
        'gross',
        'net',
      ]);
    });
  });

  describe('with a period', () => {
    const days = [1, 2, 3, 4, 5].map((day) => ({ at: `2026-11-0${day} 00:05`, cash: day * day * 100, card: 0 }));
    const row = 'M1,A1,Hall,EUR,,,10,gross,,';

    it('counts an interval where its later read falls, so that periods that follow each other neither overlap nor leave gaps', () => {
      const gross = (period: object) => state(row, days, period).map((statement) => statement.gross)[0];
      expect(gross({})).toBe(2400);
      expect(gross({ to: '2026-11-03' })).toBe(800);
      expect(gross({ from: '2026-11-04' })).toBe(1600);
      expect(gross({ from: '2026-11-03', to: '2026-11-04' })).toBe(1200);
      expect(gross({ from: '2026-12-01' })).toBeNull();
    });

    it('says that a machine was last read before it ended', () => {
      const told = (period: object, rows = row) =>
        state(rows, days, period)[0]!.findings.map(({ code, severity, message }) => `${code} ${severity} ${message}`);
      expect(told({ to: '2026-11-30' })).toEqual([
        'read-before-end doubt Machine M1 was last read on 2026-11-05 at 00:05, before the period ended on 2026-11-30: what it sold after that is not in the statement.',
      ]);
      // A read just after midnight is of the day that begins, and all of that day is missing.
      expect(told({ to: '2026-11-05' })).toHaveLength(1);
      expect(told({})).toEqual([]);
      const evening = [1, 2, 3].map((day) => ({ at: `2026-11-0${day} 22:00`, cash: day * 100, card: 0 }));
      const severities = (to: string) => state(row, evening, { to })[0]!.findings.map(({ severity }) => severity);
      expect(severities('2026-11-03')).toEqual(['note']);
      expect(severities('2026-11-04')).toEqual(['doubt']);
      const late = evening.map((each) => ({ ...each, at: each.at.replace('22:00', '23:30') }));
      expect(state(row, late, { to: '2026-11-03' })[0]!.findings).toEqual([]);
    });

    it('is not known where a read has no time to place it by', () => {
      const untimed = [days[0]!, days[1]!, { ...days[2]!, at: null }];
      expect(state(row, untimed)[0]!.gross).toBe(800);
      const [statement] = state(row, untimed, { to: '2026-11-30' });
      expect(statement).toMatchObject({ gross: null, findings: [{ code: 'sales-not-known' }] });
    });
  });

  describe('where the roster leaves something open', () => {
    const findings = (rows: string) => {
      const counters = ['A1', 'A2'].slice(0, rows.split('\n').length).flatMap((asset) => week(asset, 1000, 0));
      const [statement] = state(rows, counters);
      return {
        ...show(statement!),
        told: statement!.findings.map(({ code, field, machine }) => `${code} ${field} ${machine}`),
      };
    };

    it.each([
      [
        'no base',
        'M1,A1,H,EUR,,,10,,19,',
        { tax: '160 -40/119', commission: null, base: null },
        ['rate-missing commission_base M1'],
      ],
      ['no base, but no tax either', 'M1,A1,H,EUR,,,10,,0,', { tax: '0 0', commission: '100 0' }, []],
      ['no base, but no tax in the prices', 'M1,A1,H,EUR,,,10,,19,no', { tax: '0 0', commission: '100 0' }, []],
      [
        'neither base nor tax',
        'M1,A1,H,EUR,,,10,,,',
        { tax: null, commission: null },
        ['rate-missing commission_base M1'],
      ],
      [
        'net of an unknown tax',
        'M1,A1,H,EUR,,,10,net,,',
        { tax: null, commission: null },
        ['rate-missing tax_percent M1'],
      ],
      ['tax alone', 'M1,A1,H,EUR,,,,,25,', { tax: '200 0', net: 800, commission: null, base: null }, []],
      [
        'no tax on one of two',
        'M1,A1,H,EUR,,,10,gross,25,\nM2,A2,H,EUR,,,10,gross,,',
        { tax: null, net: null, commission: '200 0' },
        ['rate-missing tax_percent M2'],
      ],
      [
        'net, and no tax on one of two',
        'M1,A1,H,EUR,,,10,net,25,\nM2,A2,H,EUR,,,10,net,,',
        { tax: null, commission: null },
        ['rate-missing tax_percent M2'],
      ],
      [
        'no commission on one of two',
        'M1,A1,H,EUR,,,10,gross,,\nM2,A2,H,EUR,,,,,,',
        { commission: null, base: null },
        ['rate-missing commission_percent M2'],
      ],
    ])('%s', (_, rows, amounts, told) => {
      expect(findings(rows)).toMatchObject({ ...amounts, told });
    });
  });

  it('has no statement for machines that the roster does not know', () => {
    expect(state('M1,A9,Hall,EUR,,,,,,', week('A1', 1, 0))).toEqual([]);
  });
});
