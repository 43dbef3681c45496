import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import {
  DEPOSITS_TABLE,
  STATEMENT_LINES_TABLE,
  STATEMENTS_TABLE,
  statementLineRows,
} from '../../../src/report/csv/accounts-csv.js';
import { type CsvTable, writeCsvHead, writeCsvRows } from '../../../src/report/csv/csv-table.js';
import { matchExample, stateExample } from '../../accounts/example-accounts.js';

function rowsOf<Item>(table: CsvTable<Item>, items: readonly Item[]): Record<string, string>[] {
  return parse(writeCsvHead(table) + writeCsvRows(table, items), { columns: true });
}

describe('DEPOSITS_TABLE', () => {
  const { matches } = matchExample();
  const rows = rowsOf(DEPOSITS_TABLE, matches);

  it('gives amounts as decimal text, and nothing where nothing is known', () => {
    expect(rows).toHaveLength(5);
    expect(rows[1]).toMatchObject({
      machine: 'M1',
      device: 'CR-1',
      state: 'differing',
      sales_from: '2026-11-17 00:05:00',
      card_sales: '4.80',
      card_sales_is_floor: 'no',
      deposits: '1',
      first_deposit: '2026-11-18',
      gross: '4.50',
      fees: '0.12',
      fee_percent: '2.67',
      difference: '-0.30',
      findings: 'deposit-differs',
    });
    expect(rows[2]).toMatchObject({ card_sales_is_floor: 'yes', fees: '', fee_percent: '', reason: 'sales-floor' });
    expect(rows[3]).toMatchObject({ state: 'missing', deposits: '0', first_deposit: '', last_deposit: '', gross: '' });
    expect(rows[4]).toMatchObject({ machine: 'M9', sales_from: '', card_sales: '', difference: '1.00' });
  });

  it('lets no text of a sheet act as a formula (OWASP, CSV Injection)', () => {
    expect(rows[1]).toMatchObject({ location: "'=Hall, 3", references: "'@P-2" });
  });

  it('lists references once, and the first and last day of several deposits', () => {
    const [first, second] = matches;
    const both = { ...first!, deposits: [second!.deposits[0]!, first!.deposits[0]!, first!.deposits[0]!] };
    expect(rowsOf(DEPOSITS_TABLE, [both])[0]).toMatchObject({
      deposits: '3',
      first_deposit: '2026-11-17',
      last_deposit: '2026-11-18',
      references: "'@P-2 P-1",
    });
  });
});

describe('STATEMENTS_TABLE', () => {
  it('has a row a statement, with what rounding left out in words', () => {
    expect(rowsOf(STATEMENTS_TABLE, stateExample())).toMatchObject([
      {
        location: "'=Hall, 3",
        machines: 'M1 M2',
        cash_sales: '27.00',
        gross: '47.36',
        tax: '6.62',
        tax_remainder: '958/12733 of a minor unit less',
        net: '40.74',
        tax_on_top: '',
        base: '41.39',
        commission: '4.81',
        commission_remainder: '89/476 of a minor unit more',
        is_floor: 'yes',
        floors: 'cash_sales card_sales gross tax net base commission',
      },
      { location: 'Yard', tax: '0.00', tax_remainder: '0', tax_on_top: '0.19', is_floor: 'no', floors: '' },
      { location: 'Shed', gross: '', tax: '', tax_remainder: '', commission: '', findings: 'sales-not-known' },
      { location: 'Foyer', commission: '', commission_remainder: '' },
    ]);
  });
});

describe('STATEMENT_LINES_TABLE', () => {
  it('has a row a machine, with its rates', () => {
    const rows = rowsOf(STATEMENT_LINES_TABLE, stateExample().flatMap(statementLineRows));
    expect(
      rows.map(({ machine, sales, commission_percent, commission_base, tax_percent, tax_included }) =>
        [machine, sales, commission_percent, commission_base, tax_percent, tax_included].join('|'),
      ),
    ).toEqual([
      'M1|37.36|12.5|net|19|yes',
      'M2|10.00|8.875|gross|7|',
      'M3|1.01|10|net|19|no',
      'M4||10|gross||',
      'M5|1.00|||19|',
    ]);
  });
});
