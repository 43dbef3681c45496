import { describe, expect, it } from 'vitest';
import {
  type Column,
  currencyColumn,
  dateColumn,
  dateOrTimeColumn,
  identifierColumn,
  keyColumn,
  moneyColumn,
  textColumn,
  timeColumn,
  whenColumn,
  wholeColumn,
  wordColumn,
  yesNoColumn,
} from '../../src/sheets/columns.js';
import { cellContext } from '../support/sheet-reading.js';

/** The value of a cell, or what is wrong with it. */
function read(column: Column<unknown>, text: string, overrides = {}): unknown {
  const reading = column.parse(text, cellContext(overrides));
  if ('refusal' in reading) return reading.refusal.says;
  const { success, data, error } = column.shape.safeParse(reading.value);
  return success ? data : `${text}: ${error.issues[0]!.message}`;
}

const takesEmpty = (column: Column<unknown>): boolean => column.shape.safeParse(null).success;

describe('columns', () => {
  it('of text take any, but no error of a spreadsheet', () => {
    expect(read(textColumn('note'), '=1+1 "x"\n')).toBe('=1+1 "x"\n');
    expect(read(textColumn('note'), '1,2E+11')).toBe('1,2E+11');
    expect(read(textColumn('note'), '#N/A')).toBe('"#N/A" is an error of the spreadsheet');
    expect(read(textColumn('note'), '#REF!')).toBe('"#REF!" is an error of the spreadsheet');
    expect(takesEmpty(textColumn('note'))).toBe(true);
  });

  it('of identifiers refuse a number that a spreadsheet shortened', () => {
    for (const column of [identifierColumn('serial'), keyColumn('machine')]) {
      expect(read(column, '0012345')).toBe('0012345');
      expect(read(column, '1.23E+11')).toBe('"1.23E+11" looks like a long number that a spreadsheet has shortened');
      expect(read(column, '1,23e+11')).toBe('"1,23e+11" looks like a long number that a spreadsheet has shortened');
      expect(read(column, '#VALUE!')).toBe('"#VALUE!" is an error of the spreadsheet');
    }
    expect(takesEmpty(identifierColumn('serial'))).toBe(true);
  });

  it('of keys must be there and be filled, and take their row with them', () => {
    expect(keyColumn('machine')).toMatchObject({ isMandatory: true, spoils: 'row', expected: 'a machine' });
    expect(takesEmpty(keyColumn('machine'))).toBe(false);
  });

  it('of currencies take the codes of ISO 4217 in any case', () => {
    expect(read(currencyColumn('currency'), 'eur')).toBe('EUR');
    expect(read(currencyColumn('currency'), 'EURO')).toBe('EURO: is no currency of ISO 4217');
    expect(read(currencyColumn('currency'), '€')).toBe('€: is no currency of ISO 4217');
    expect(takesEmpty(currencyColumn('currency'))).toBe(true);
  });

  it.each([
    ['yes', true],
    ['Y', true],
    ['TRUE', true],
    ['1', true],
    ['No', false],
    ['n', false],
    ['False', false],
    ['0', false],
    ['maybe', '"maybe" is neither'],
    ['2', '"2" is neither'],
  ])('of yes and no read %s', (text, value) => {
    expect(read(yesNoColumn('active'), text)).toBe(value);
  });

  it('of yes and no may be empty, which is not stated', () => {
    expect(takesEmpty(yesNoColumn('active'))).toBe(true);
  });

  it('of whole numbers keep to their bounds', () => {
    const signal = wholeColumn('signal', 1, 31);
    expect(read(signal, '1')).toBe(1);
    expect(read(signal, '31')).toBe(31);
    expect(read(signal, '0')).toBe('0: is too small');
    expect(read(signal, '32')).toBe('32: is too large');
    expect(read(signal, '-5')).toBe('"-5" is below zero');
    expect(signal.expected).toBe('a whole number from 1 to 31');
    expect(wholeColumn('par', 0).expected).toBe('a whole number of 0 or more');
    expect(read(wholeColumn('par', 0), '1 200')).toBe(1200);
    expect(takesEmpty(signal)).toBe(true);
  });

  it('of money read minor units of 0 or more', () => {
    const coins = moneyColumn('coins', { spoils: 'row' });
    expect(coins).toMatchObject({ isMoney: true, spoils: 'row', isMandatory: false });
    expect(read(coins, '12.50')).toBe(1250);
    expect(read(coins, '0')).toBe(0);
    expect(read(coins, '-12.50')).toBe('-12.50: is below zero');
    expect(read(coins, '12.50', { decimals: null })).toBe(
      '"12.50" cannot be read, since the decimals of this machine\'s money are not known',
    );
    expect(takesEmpty(coins)).toBe(true);
  });

  it('of visits read a date with or without a time, and must be filled', () => {
    expect(read(whenColumn('visited_at'), '2026-11-24')).toEqual({ date: '2026-11-24', time: null });
    expect(read(whenColumn('visited_at'), '2026-11-24 10:15')).toEqual({ date: '2026-11-24', time: '10:15:00' });
    expect(whenColumn('visited_at')).toMatchObject({ isMandatory: true, spoils: 'row' });
    expect(takesEmpty(whenColumn('visited_at'))).toBe(false);
  });

  it('of dates or times write them in one form', () => {
    const countedAt = dateOrTimeColumn('counted_at');
    expect(read(countedAt, '2026/11/24')).toBe('2026-11-24');
    expect(read(countedAt, '2026-11-24 10:15')).toBe('2026-11-24T10:15:00');
    expect(read(countedAt, 'today')).toBe('"today" is not a date written with its year first');
    expect(takesEmpty(countedAt)).toBe(true);
  });

  it('of times need a time of day', () => {
    expect(read(timeColumn('received_at'), '2026-11-24 10:15')).toBe('2026-11-24T10:15:00');
    expect(read(timeColumn('received_at'), '2026-11-24')).toBe('2026-11-24: has no time of day');
    expect(takesEmpty(timeColumn('received_at'))).toBe(true);
  });

  it('of dates need none but midnight', () => {
    expect(read(dateColumn('from'), '2026-11-24')).toBe('2026-11-24');
    expect(read(dateColumn('from'), '2026-11-24 00:00')).toBe('2026-11-24');
    expect(read(dateColumn('from'), '2026-11-24 10:15')).toBe('2026-11-24 10:15: has a time of day');
    expect(takesEmpty(dateColumn('from'))).toBe(true);
  });

  it('of words take them in any case and however joined', () => {
    const reason = wordColumn('reason', ['scheduled', 'on demand', 'service']);
    for (const text of ['on demand', 'On-Demand', 'ON_DEMAND', 'on  demand'])
      expect(read(reason, text)).toBe('on demand');
    expect(read(reason, 'Service')).toBe('service');
    expect(read(reason, 'asked')).toBe('asked: is none of them');
    expect(reason.expected).toBe('one of: scheduled, on demand, service');
    expect(takesEmpty(reason)).toBe(true);
  });
});
