import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMinor } from '../../src/model/index.js';
import { decimalsFromRoster, readDeposits, readMachines } from '../../src/sheets/index.js';
import { EURO, moneyIn, outline } from '../support/sheet-reading.js';

const HEADER = 'machine,device,date,gross,fees,net';
const read = (content: string, money = EURO, machineOfDevice?: (device: string) => string | null) =>
  readDeposits({ file: 'deposits.csv', content }, money, machineOfDevice);
const rows = (...lines: string[]) => read([HEADER, ...lines].join('\n'));

describe('readDeposits', () => {
  it('reads every column', () => {
    const { rows: deposits, findings } = read(
      `${HEADER},currency,reference,period_from,period_to\n` +
        'M1,CR-7,2026-11-24,125.60,3.14,122.46,eur,P-1,2026-11-16,2026-11-22\n' +
        'M2,,2026-11-24 03:15,10,0,10,,,,',
    );
    expect(deposits).toEqual([
      {
        machine: 'M1',
        device: 'CR-7',
        date: '2026-11-24',
        gross: 12560,
        fees: 314,
        net: 12246,
        mismatch: null,
        currency: 'EUR',
        decimals: 2,
        reference: 'P-1',
        periodFrom: '2026-11-16',
        periodTo: '2026-11-22',
        place: { file: 'deposits.csv', row: 2 },
      },
      {
        machine: 'M2',
        device: null,
        date: '2026-11-24',
        gross: 1000,
        fees: 0,
        net: 1000,
        mismatch: null,
        currency: 'EUR',
        decimals: 2,
        reference: null,
        periodFrom: null,
        periodTo: null,
        place: { file: 'deposits.csv', row: 3 },
      },
    ]);
    expect(findings).toEqual([]);
  });

  it.each([
    ['machine,gross', 'column date'],
    ['date,gross', 'column machine or device'],
    ['machine,date', 'column gross'],
    ['machine,date,net', 'column gross'],
  ])('refuses a sheet with %s alone', (header, missing) => {
    const { rows: deposits, findings } = read(`${header}\n1,2`);
    expect(deposits).toEqual([]);
    expect(findings).toMatchObject([{ code: 'sheet-column-missing', message: expect.stringContaining(missing) }]);
  });

  it('takes gross from fees and net, and each of the others likewise, and says so', () => {
    const { rows: deposits, findings } = rows(
      'M1,,2026-11-24,,3.14,122.46',
      'M1,,2026-11-25,10.00,,9.70',
      'M1,,2026-11-26,5,1,',
    );
    expect(deposits.map(({ gross, fees, net }) => [gross, fees, net])).toEqual([
      [12560, 314, 12246],
      [1000, 30, 970],
      [500, 100, 400],
    ]);
    expect(findings).toMatchObject([{ code: 'sheet-format', severity: 'note' }]);
    expect(findings[0]!.message).toContain('left empty as the other two make it');
    expect(read('device,date,net,fees\nC1,2026-11-24,9.70,0.30', EURO, () => 'M1').rows[0]!.gross).toBe(1000);
  });

  it('keeps what is given alone as it is: fees that are not stated are not known, never 0', () => {
    const { rows: deposits } = rows('M1,,2026-11-24,10.00,,');
    expect(deposits).toMatchObject([{ gross: 1000, fees: null, net: null, mismatch: null }]);
  });

  it('leaves out a row from which no gross follows', () => {
    const { rows: deposits, findings } = rows('M1,,2026-11-24,,,9.70', 'M1,,2026-11-24,,0.30,', 'M1,,2026-11-24,,,');
    expect(deposits).toEqual([]);
    expect(outline(findings)).toEqual(['bad-row 2', 'bad-row 3', 'bad-row 4']);
    expect(findings[0]!.message).toBe(
      'deposits.csv, row 2: gives no gross, nor fees and net that make it; expected gross, fees and net. The row is left out; no other row is used.',
    );
  });

  it('says of a row that does not add up by how much, to the cent, and uses its gross', () => {
    const { rows: deposits, findings } = rows('M1,,2026-11-24,125.60,3.14,122.47', 'M1,,2026-11-25,1,0.10,0.90');
    expect(deposits.map(({ gross, mismatch }) => [gross, mismatch])).toEqual([
      [12560, -1],
      [100, null],
    ]);
    expect(findings).toMatchObject([
      {
        code: 'deposit-sum',
        severity: 'doubt',
        row: 2,
        field: 'net',
        machine: 'M1',
        expected: '122.46',
        received: '122.47',
        message:
          'deposits.csv, row 2, column net: gross 125.60 less fees 3.14 is 122.46, and net is 122.47; expected 122.46. The row is used with its gross; its fees count in no fee rate.',
      },
    ]);
  });

  it('takes fees with a minus as kept back only where the row then adds up', () => {
    const { rows: deposits, findings } = rows(
      'M1,,2026-11-24,10,-0.30,9.70',
      'M1,,2026-11-25,10,-0.30,10.30',
      'M1,,2026-11-26,10,-0.30,9',
    );
    expect(deposits.map(({ fees, mismatch }) => [fees, mismatch])).toEqual([
      [30, null],
      [-30, null],
      [-30, 130],
    ]);
    expect(outline(findings)).toEqual(['sheet-format', 'deposit-sum 4 net']);
    expect(findings[0]!.message).toContain('fees with a minus as kept back');
  });

  it('reads what was taken back: gross and net below zero', () => {
    expect(rows('M1,,2026-11-24,-4.00,0.25,-4.25').rows).toMatchObject([{ gross: -400, fees: 25, net: -425 }]);
  });

  it.each([
    [',,2026-11-24,1,0,1', 'bad-row 2'],
    ['M1,,24/11/2026,1,0,1', 'bad-cell 2 date'],
    ['M1,,03/04/2026,1,0,1', 'ambiguous-date 2 date'],
    ['M1,,,1,0,1', 'bad-cell 2 date'],
    ['M1,,2026-11-24,one,0,1', 'bad-cell 2 gross'],
    ['M1,,2026-11-24,1.005,0,1', 'ambiguous-number 2 gross'],
    ['M1,,2026-11-24,1,0,#REF!', 'bad-cell 2 net'],
    ['M1,,2026-11-24,£1,0,1', 'bad-cell 2 gross'],
  ])('leaves out the row %s', (line, told) => {
    const { rows: deposits, findings } = rows(line, 'M1,,2026-11-24,1,0,1');
    expect(deposits).toHaveLength(1);
    expect(outline(findings)).toEqual([told]);
  });

  it.each([
    ['2026-11-22,2026-11-16', false],
    ['2026-11-16,2026-11-25', false],
    ['2026-11-25,', false],
    ['2026-11-16,2026-11-24', true],
    ['2026-11-24,', true],
    [',2026-11-20', true],
    ['2026-11-16 08:00,2026-11-20', false],
  ])('holds the period %s against its own order and the day of the deposit', (period, isUsed) => {
    const { rows: deposits, findings } = read(`machine,date,gross,period_from,period_to\nM1,2026-11-24,1,${period}`);
    expect(deposits).toHaveLength(isUsed ? 1 : 0);
    expect(findings).toHaveLength(isUsed ? 0 : 1);
  });

  it('takes decimals and currency from the row, else from the machine, else from the machine the device is in', () => {
    const { rows: machines } = readMachines({
      file: 'm.csv',
      content: 'machine,currency,decimals\nM1,EUR,2\nM2,JPY,\nM3,EUR,3',
    });
    const money = decimalsFromRoster(machines, null);
    const owner = (device: string) => (device === 'CR-2' ? 'M2' : null);
    const { rows: deposits, findings } = read(
      [
        'machine,device,date,gross,currency',
        'M1,,2026-11-24,150,',
        ',CR-2,2026-11-24,150,',
        'M3,,2026-11-24,150,EUR',
        'M1,,2026-11-24,150,KWD',
        ',CR-9,2026-11-24,150,USD',
        ',CR-9,2026-11-24,150,',
        'M9,,2026-11-24,150,',
        'M1,,2026-11-24,150,XXX',
      ].join('\n'),
      money,
      owner,
    );
    expect(deposits.map(({ gross, currency, decimals }) => [gross, currency, decimals])).toEqual([
      [15000, 'EUR', 2],
      [150, 'JPY', 0],
      [150000, 'EUR', 3],
      [150000, 'KWD', 3],
      [15000, 'USD', 2],
    ]);
    expect(outline(findings)).toEqual(['bad-row 7', 'bad-row 8', 'bad-cell 9 currency']);
    expect(findings[0]!.message).toBe(
      'deposits.csv, row 7: cannot be read, since the decimals of its money are not known; expected a currency in the row, or the machine with its currency or decimals in the roster. The row is left out; 5 other rows are used.',
    );
    expect(read('device,date,gross\nCR-9,2026-11-24,150', money).rows).toEqual([]);
    expect(read('machine,date,gross\nM9,2026-11-24,150', decimalsFromRoster([], 2)).rows).toMatchObject([
      { gross: 15000, currency: null, decimals: 2 },
    ]);
  });

  it('refuses an amount in another currency than the row is in', () => {
    const { rows: deposits, findings } = read(
      'machine,date,gross,currency\nM1,2026-11-24,€ 150,USD\nM1,2026-11-24,$ 150,USD',
    );
    expect(deposits).toMatchObject([{ gross: 15000, currency: 'USD' }]);
    expect(outline(findings)).toContain('bad-cell 2 gross');
  });

  it('keeps a payment once that was entered twice with its reference, and both where none is given', () => {
    const header = 'machine,date,gross,reference';
    const { rows: deposits, findings } = read(
      `${header}\nM1,2026-11-24,1,P1\nM1,2026-11-24,1,P1\nM1,2026-11-24,1,\nM1,2026-11-24,1,\nM2,2026-11-24,1,P1`,
    );
    expect(deposits.map(({ place }) => place.row)).toEqual([2, 4, 5, 6]);
    expect(outline(findings)).toEqual(['duplicate-row 3 reference', 'duplicate-row 5 reference']);
  });

  it('reads semicolons and decimal commas', () => {
    const { rows: deposits } = read(
      'device;date;gross;fees;net\nCR-7;2026-11-24;1.234,50;0,50;1.234,00',
      moneyIn('EUR', 2),
      () => 'M1',
    );
    expect(deposits).toMatchObject([{ device: 'CR-7', machine: null, gross: 123450, fees: 50, net: 123400 }]);
  });

  it('gives all amounts back exactly, and finds every row that is off by any amount', () => {
    const amount = fc.integer({ min: 0, max: 9_999_999_999 });
    const row = fc.record({
      gross: amount,
      fees: amount,
      off: fc.oneof(fc.constant(0), fc.integer({ min: -500, max: 500 })),
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 20 }), fc.integer({ min: 0, max: 4 }), (lines, decimals) => {
        const write = (value: number): string => formatMinor(value, decimals);
        const content = lines.map(({ gross, fees, off }, i) =>
          [`M${i}`, '', '2026-11-24', write(gross), write(fees), write(gross - fees - off)].join(','),
        );
        // A first amount below 1 shows which mark stands before decimals, as one of a real sheet most often does.
        const first = ['M', '', '2026-11-24', write(0), write(0), write(0)].join(',');
        const { rows: deposits } = read([HEADER, first, ...content].join('\n'), moneyIn(null, decimals));
        expect(deposits.slice(1).map(({ gross, fees, net, mismatch }) => [gross, fees, net, mismatch ?? 0])).toEqual(
          lines.map(({ gross, fees, off }) => [gross, fees, gross - fees - off + 0, off]),
        );
      }),
    );
  });
});
