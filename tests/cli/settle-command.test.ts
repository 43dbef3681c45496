import { describe, expect, it } from 'vitest';
import type { SettlementJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { TRUTH } from './demo-truth.js';
import { csvOf, expectReadable, jsonOf, runProgram, SHEETS } from './run-program.js';

const SETTLE = [
  'settle',
  '--captures',
  'fixtures/demo/captures',
  '--counts',
  'fixtures/demo/counts.csv',
  ...SHEETS,
  '--day',
  '2026-11-23',
];
const settle = async (...argv: string[]) => {
  const outcome = await runProgram([...SETTLE, '--json', ...argv]);
  return { outcome, settlements: jsonOf<SettlementJson>(outcome, 'settlement') };
};

describe('settle --json', () => {
  it('settles the demo round as it was played', async () => {
    const { outcome, settlements } = await settle();
    expect(settlements).toHaveLength(1);
    const [settlement] = settlements;
    expect(settlement).toMatchObject({ route: TRUTH.route, day: '2026-11-23', currency: 'EUR', decimals: 2 });
    expect(settlement!.visits.map(({ machine }) => machine).sort()).toEqual(TRUTH.visits.map(({ machine }) => machine));
    for (const { machine, bag, state, counted, inTheBag, overShort, known, totals } of TRUTH.visits) {
      const visit = settlement!.visits.find((one) => one.machine === machine)!;
      expect(visit).toMatchObject({ machine, bag, state, counted, driver: TRUTH.driver });
      if (known === undefined) {
        const total = overShort.coins + overShort.bills;
        expect(visit).toMatchObject({ expected: inTheBag, overShort: { ...overShort, total }, expectedIsFloor: false });
        expect([visit.sold, visit.value]).toEqual([totals.sold, totals.value]);
      } else {
        expect(visit).toMatchObject({ overShort: { coins: null, bills: null, total: null } });
      }
    }
    const unread = TRUTH.visits.find(({ state }) => state === 'unread')!;
    expect(settlement!.visits.find(({ machine }) => machine === unread.machine)).toMatchObject({
      expected: unread.known!.expectedUpToLastReadBefore,
      expectedIsFloor: true,
    });
    expect(outcome.status).toBe(2);
  });

  it('adds up the settled visits to the cent', async () => {
    const [settlement] = (await settle()).settlements;
    const settled = TRUTH.visits.filter(({ known }) => known === undefined);
    const sum = (of: (visit: (typeof settled)[number]) => number) =>
      settled.reduce((total, visit) => total + of(visit), 0);
    expect(settlement!.totals).toMatchObject({
      expected: { coins: sum(({ inTheBag }) => inTheBag.coins), bills: sum(({ inTheBag }) => inTheBag.bills) },
      counted: { coins: sum(({ counted }) => counted.coins), bills: sum(({ counted }) => counted.bills) },
      overShort: { coins: -500, bills: 0, total: -500 },
      sold: sum(({ totals }) => totals.sold),
      value: sum(({ totals }) => totals.value),
      cardSales: sum(({ cash }) => cash.cardSales!),
      loss: sum(({ columns }) => columns.reduce((total, { lossFromPrice }) => total + lossFromPrice, 0)),
    });
  });

  it('takes a difference within the tolerance for agreed', async () => {
    const stateWith = async (...argv: string[]) =>
      (await settle(...argv)).settlements[0]!.visits.find(({ machine }) => machine === 'V106')!.state;
    expect(await stateWith()).toBe('short');
    expect(await stateWith('--tolerance', '4.99')).toBe('short');
    expect(await stateWith('--tolerance', '5')).toBe('agreed');
    expect(await stateWith('--tolerance', '5,00')).toBe('agreed');
    // 5.00 of 241.10 is 2.07 %.
    expect(await stateWith('--tolerance-percent', '2.07')).toBe('short');
    expect(await stateWith('--tolerance-percent', '2.08')).toBe('agreed');
  });

  it('keeps to the route and day asked for', async () => {
    expect((await settle('--route', 'R7')).settlements).toHaveLength(1);
    const other = await runProgram([...SETTLE, '--route', 'R8']);
    expect(other.lines[0]).toBe('Nothing to settle: no count fits the route and day asked for.');
  });
});

describe('settle as text', () => {
  it('begins with the answer', async () => {
    const outcome = await runProgram(SETTLE);
    expectReadable(outcome);
    const { lines, out } = outcome;
    expect(lines[0]).toBe('Route R7, 2026-11-23: 5.00 EUR short on 6 settled visits; 2 visits still open.');
    expect(out).toMatch(/\n {2}V106 +College block B +B4406 +short +241\.10 +236\.10 +-5\.00\n/);
    expect(out).toMatch(/\n {2}V108 +Bus depot +B4408 +unread +>= \d+\.\d\d +91\.20 +-\n/);
    for (const word of [
      'matched by time',
      'matched by date',
      'Count again with a second person',
      "operator's\n  accountant",
    ]) {
      expect(out).toContain(word);
    }
  });

  it('finds sheets in the folder of the captures without taking them for captures', async () => {
    const argv = SETTLE.map((arg) => (arg === 'fixtures/demo/captures' ? 'fixtures/demo' : arg));
    const { out } = await runProgram(argv);
    expect(out).toContain('fixtures/demo/truth.json');
    for (const sheet of ['machines.csv', 'plan.csv', 'captures.csv']) expect(out).not.toContain(`demo/${sheet}`);
  });
});

describe('settle --csv', () => {
  it('has one row a visit, with amounts that spreadsheets read as numbers', async () => {
    const rows = csvOf(await runProgram([...SETTLE, '--csv']));
    expect(rows).toHaveLength(8);
    expect(rows.find(({ machine }) => machine === 'V106')).toMatchObject({
      state: 'short',
      expected_coins: '126.10',
      counted_coins: '121.10',
      over_short_coins: '-5.00',
      over_short_total: '-5.00',
    });
    expect(rows.find(({ machine }) => machine === 'V108')).toMatchObject({
      over_short_total: '',
      expected_is_floor: 'yes',
    });
  });

  it('has one row a column with --table sales', async () => {
    const rows = csvOf(await runProgram([...SETTLE, '--table', 'sales']));
    const own = rows.filter(({ machine }) => machine === 'V101');
    const { columns } = TRUTH.visits.find(({ machine }) => machine === 'V101')!;
    expect(own.map(({ column, sold }) => [column, Number(sold)])).toEqual(
      columns.map(({ column, sold }) => [column, sold]),
    );
  });
});

describe('options of settle', () => {
  it('are refused in one line where they make no sense', async () => {
    const errorOf = async (...argv: string[]) => {
      const { status, err } = await runProgram(['settle', '--captures', '.', '--counts', 'c.csv', ...argv]);
      return `${status} ${err}`;
    };
    expect(await errorOf('--day', '24.11.2026')).toBe(
      '64 coilbook: --day: expected a date such as 2026-11-24, not "24.11.2026"\n',
    );
    expect(await errorOf('--day', '2026-02-30')).toMatch(/^64 .*--day/);
    expect(await errorOf('--tolerance', '-1')).toMatch(/^64 .*--tolerance: expected an amount such as 0\.50/);
    expect(await errorOf('--tolerance-percent', 'x')).toMatch(/^64 .*--tolerance-percent/);
    expect(await errorOf('--window', '1h')).toMatch(/^64 .*--window: expected a whole number of minutes/);
    expect(await errorOf('--currency', 'EURO')).toMatch(/^64 .*--currency: expected an alphabetic code of ISO 4217/);
    expect(await errorOf('--machines', '-', '--plan', '-')).toBe(
      '64 coilbook: standard input (-) can be named only once\n',
    );
  });

  it('need decimals for an amount', async () => {
    const folder = makeFolder({
      'one.csv': 'machine,currency\nM1,JPY\n',
      'two.csv': 'machine,currency\nM1,JPY\nM2,EUR\n',
      'c.csv': 'machine,visited_at,coins\nM1,2026-11-24,5\n',
      'a.dex': '',
    });
    const errorOf = async (...argv: string[]) => {
      const { err } = await runProgram(['settle', '--captures', 'a.dex', '--counts', 'c.csv', ...argv], {
        cwd: folder,
      });
      return err;
    };
    expect(await errorOf('--tolerance', '5')).toMatch(/decimals are not known; add --decimals or --currency/);
    expect(await errorOf('--tolerance', '5', '--machines', 'two.csv')).toMatch(
      /different decimals; use --tolerance-percent/,
    );
    expect(await errorOf('--tolerance', '0.5', '--machines', 'one.csv')).toMatch(/"0\.5" has more than 0 decimals/);
    expect(await errorOf('--tolerance', '5', '--machines', 'one.csv')).toBe('');
    expect(await errorOf('--tolerance', '0.5', '--currency', 'EUR')).toBe('');
  });
});
