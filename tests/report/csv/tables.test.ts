import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { explainCapture } from '../../../src/explain/index.js';
import { CAUTIONS } from '../../../src/findings/index.js';
import { csvAmount, csvTime } from '../../../src/report/csv/csv-table.js';
import {
  CASH_TABLE,
  CHECK_TABLE,
  type CsvTable,
  checkRows,
  ELEMENTS_TABLE,
  elementRows,
  INSTALL_TABLE,
  installRows,
  SALES_TABLE,
  salesRows,
  VISITS_TABLE,
  visitRows,
  writeCsvHead,
  writeCsvRows,
} from '../../../src/report/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { pairInterval } from '../../explain/pair-interval.js';
import { buildCapture, buildTransmission, bytesOf } from '../../support/build-capture.js';
import { settleDemo } from '../../support/demo-files.js';
import { intervalOf } from '../../support/interval-cases.js';

function readBack<Item>(table: CsvTable<Item>, items: readonly Item[]): Record<string, string>[] {
  return parse(writeCsvHead(table) + writeCsvRows(table, items), { columns: true });
}

describe('tables', () => {
  it('have names of columns that no two share, in lower case', () => {
    for (const { columns } of [CHECK_TABLE, SALES_TABLE, CASH_TABLE, VISITS_TABLE, ELEMENTS_TABLE, INSTALL_TABLE]) {
      const names = columns.map(([name]) => name);
      expect(new Set(names).size).toBe(names.length);
      for (const name of names) expect(name).toMatch(/^[a-z_]+$/);
    }
  });

  it('have a head and nothing else where there is nothing to say', () => {
    expect(readBack(VISITS_TABLE, [])).toEqual([]);
    expect(writeCsvHead(VISITS_TABLE)).toMatch(/^route,day,machine,.*,findings\r\n$/);
  });
});

describe('cells', () => {
  it('write amounts with their decimals, and minor units where those are not known', () => {
    expect([csvAmount(-1250, 2), csvAmount(1250, null), csvAmount(null, 2)]).toEqual(['-12.50', '1250', null]);
  });

  it('write times as spreadsheets take them', () => {
    expect([csvTime('2026-11-24T10:15:00'), csvTime('2026-11-24'), csvTime(null)]).toEqual([
      '2026-11-24 10:15:00',
      '2026-11-24',
      null,
    ]);
  });
});

describe('CHECK_TABLE', () => {
  it('has one row a read, each with its own findings, and those of the file with the first', () => {
    const bytes = buildTransmission([{ segments: ['ID1*S1*M1'] }, { segments: ['ID1*S2*M2'], crc: 'wrong' }], {
      dxe: null,
    });
    const rows = readBack(CHECK_TABLE, checkRows(checkCapture('a.dex', bytes)));
    expect(rows.map(({ read, serial, faults, verdict }) => [read, serial, faults, verdict])).toEqual([
      ['1', 'S1', '0', 'read-again'],
      ['2', 'S2', '1', 'read-again'],
    ]);
    expect(rows[0]).toMatchObject({ clock: '', currency: '', complete: 'yes' });
    expect(Number(rows[0]!.doubts)).toBeGreaterThan(0);
  });

  it('says that a read is cut short, and numbers those of a later part', () => {
    const check = checkCapture('a.dex', buildCapture(['ID1*S1*M1'], { cutAt: -30 }));
    const [row] = readBack(CHECK_TABLE, checkRows({ ...check, firstRead: 5000, findings: [] }));
    expect(row).toMatchObject({ read: '5001', complete: 'no', worst: '', message: '' });
  });

  it('has a row for a file without a read', () => {
    expect(readBack(CHECK_TABLE, checkRows(checkCapture('a.dex', bytesOf(''))))).toMatchObject([
      { file: 'a.dex', read: '', serial: '', complete: '', worst: 'empty-file' },
    ]);
  });
});

describe('SALES_TABLE and CASH_TABLE', () => {
  const before = ['PA1*11*150*=cmd', 'PA2*0*0', 'PA1*12*100', 'PA2*500*0', 'CA3*****0*0*0'];
  const after = ['PA1*11*160*=cmd', 'PA2*12*1850', 'PA1*12*100', 'PA2*400*100', 'CA3*****900*500*400'];
  const interval = pairInterval(before, after, { plan: ['11,1.50'] });

  it('have figures that spreadsheets read as numbers, and nothing for what is not known', () => {
    const [first, second] = readBack(SALES_TABLE, salesRows(interval));
    expect(first).toMatchObject({ machine: 'M1', column: '11', product: "'=cmd", sold: '12', value: '18.50' });
    expect(first).toMatchObject({ split: '7 x 1.50; 5 x 1.60', loss: '-0.50', unexplained: '0.00', floor: 'no' });
    expect(second).toMatchObject({ column: '12', sold: '', value: '1.00', price_plan: '', loss: '' });
    const [cash] = readBack(CASH_TABLE, [interval]);
    expect(cash).toMatchObject({ cash_in: '9.00', to_cash_box: '5.00', card_sales: '0.00', floor: 'no' });
  });

  it('mark floors, and call a machine that nobody names as the tables of a day do', () => {
    const columns = (count: number) => ['PA1*11*100', `PA2*${count}*${count * 100}`];
    const restarted = pairInterval(
      ['CB1*A', 'VA1*100000*1000', ...columns(500)],
      ['CB1*B', 'VA1*300*3', ...columns(3)],
    );
    const unnamed = { ...restarted, to: { ...restarted.to, machine: null } };
    expect(readBack(SALES_TABLE, salesRows(unnamed))[0]).toMatchObject({
      ...{ machine: 'asset A1', floor: 'yes', basis: 'restart' },
    });
    expect(readBack(CASH_TABLE, [unnamed])[0]).toMatchObject({ machine: 'asset A1', location: '', floor: 'yes' });
  });

  it('tell machines apart that give nothing but their boards, and when reads were whatever the clock says', () => {
    const unnamed = ['ID1*', 'ID5*260101*0100', 'CB1*B7'];
    const interval = intervalOf([...unnamed, 'VA1*100*1'], [...unnamed, 'VA1*200*2'], {
      from: { receivedAt: '2026-11-20T10:00:00' },
      to: { receivedAt: '2026-11-21T10:00:00' },
    });
    expect(readBack(CASH_TABLE, [interval])[0]).toMatchObject({
      ...{ machine: 'board B7', asset: '', serial: '', board: 'B7' },
      ...{ from_clock: '2026-01-01 01:00:00', from_time: '2026-11-20 10:00:00', to_time: '2026-11-21 10:00:00' },
    });
  });
});

describe('VISITS_TABLE', () => {
  it('has one row a visit', () => {
    const [settlement] = settleDemo().settlements;
    const rows = readBack(VISITS_TABLE, visitRows(settlement!));
    expect(rows.map(({ bag, state }) => [bag, state])).toEqual(
      settlement!.visits.map(({ bag, state }) => [bag, state]),
    );
    expect(rows.find(({ bag }) => bag === 'B4408')).toMatchObject({
      expected_is_floor: 'yes',
      capture: '',
      matched_by: '',
    });
  });
});

describe('ELEMENTS_TABLE', () => {
  it('has one row an element, and one for a segment without any', () => {
    const segments = explainCapture('a.dex', buildCapture(['ID1*S1', 'MA9']), { roster: new Roster() });
    const rows = readBack(
      ELEMENTS_TABLE,
      segments.flatMap((segment) => elementRows('a.dex', segment)),
    );
    expect(rows.find(({ element }) => element === 'ID101')).toMatchObject({
      read: '1',
      text: 'S1',
      meaning: 'machine serial number',
    });
    expect(rows.find(({ segment }) => segment === 'MA9')).toMatchObject({
      element: '',
      text: '',
      title: '',
      line: '4',
    });
    expect(rows[0]).toMatchObject({ segment: 'DXS', read: '' });
  });
});

describe('INSTALL_TABLE', () => {
  it('has one row a point', () => {
    const item = {
      id: 'clock',
      what: 'the clock is right',
      state: 'missing',
      detail: '-5 minutes',
      advice: 'Set it.',
      cautions: ['tilt'],
    } as const;
    const check = { passed: false, headline: 'Not passed.', items: [item] };
    expect(readBack(INSTALL_TABLE, installRows({ file: 'a.dex', second: null, check }))).toEqual([
      {
        ...{ file: 'a.dex', second: '', point: 'clock', what: 'the clock is right', state: 'missing' },
        ...{ detail: "'-5 minutes", advice: 'Set it.', cautions: CAUTIONS.tilt },
      },
    ]);
  });
});
