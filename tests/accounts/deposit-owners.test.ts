import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../src/accounts/days.js';
import { DepositOwners, daysOfRow, nameMachine } from '../../src/accounts/deposit-owners.js';
import { readDeposits } from '../../src/sheets/index.js';
import { EURO } from '../support/sheet-reading.js';
import { intervalsOf, rosterOf, takeCounters } from './machine-days.js';

const roster = rosterOf('machine,asset\nM1,A1\nM2,A2\nM3,A3');
const intervals = intervalsOf(
  [
    { asset: 'A1', at: '2026-11-01 10:00', card: 1, device: 'CR-1', device2: 'CR-2' },
    { asset: 'A1', at: '2026-11-05 10:00', card: 2, device: 'CR-1', device2: 'CR-2' },
    { asset: 'A2', at: '2026-11-20 10:00', card: 1, device: 'CR-1' },
    { asset: 'A2', at: '2026-11-25 10:00', card: 2, device2: 'CR-1' },
    { asset: 'A8', at: '2026-11-20 10:00', card: 1 },
    { asset: 'A8', at: '2026-11-25 10:00', card: 2 },
  ],
  roster,
);
const owners = new DepositOwners(intervals, roster);

function find(row: string) {
  const sheet = { file: 'd.csv', content: `machine,device,date,gross,period_from,period_to,currency\n${row},EUR` };
  const [deposit] = readDeposits(sheet, EURO).rows;
  return owners.find(deposit!, daysOfRow(deposit!, 3));
}

describe('DepositOwners', () => {
  it.each([
    ['M1,,2026-11-04,1,,', { key: 'machine M1', slot: null }],
    ['M1,CR-1,2026-11-04,1,,', { key: 'machine M1', slot: 1 }],
    ['M1,CR-2,2026-11-04,1,,', { key: 'machine M1', slot: 2 }],
    ['M1,CR-9,2026-11-04,1,,', { key: 'machine M1', slot: null }],
    ['M2,CR-2,2026-11-04,1,,', { reason: 'two-machines', machine: 'M2' }],
    // In both places of the one machine.
    ['M2,CR-1,2026-11-24,1,,', { key: 'machine M2', slot: null }],
    ['M3,,2026-11-04,1,,', { reason: 'sales-not-known', machine: 'M3' }],
    ['M4,,2026-11-04,1,,', { reason: 'unknown-machine', machine: 'M4' }],
    // A machine that is on no roster goes by what it calls itself.
    ['A8,,2026-11-24,1,,', { key: 'asset A8', slot: null }],
    ['S-A8,,2026-11-24,1,,', { key: 'asset A8', slot: null }],
    [',CR-2,2026-11-04,1,,', { key: 'machine M1', slot: 2 }],
    [',CR-9,2026-11-04,1,,', { reason: 'unknown-device', machine: null }],
    // Moved: the days of the deposit decide, its stated ones before the window.
    [',CR-1,2026-11-04,1,,', { key: 'machine M1', slot: 1 }],
    [',CR-1,2026-11-24,1,,', { key: 'machine M2', slot: null }],
    [',CR-1,2026-11-24,1,2026-11-01,2026-11-05', { key: 'machine M1', slot: 1 }],
    [',CR-1,2026-11-15,1,,', { reason: 'two-machines', machine: null }],
    [',CR-1,2026-11-24,1,2026-11-05,2026-11-20', { reason: 'two-machines', machine: null }],
  ])('%s', (row, owner) => {
    expect(find(row)).toEqual(owner);
  });
});

describe('daysOfRow', () => {
  it('are the stated days, else those of the window before the deposit', () => {
    const sheet = {
      file: 'd.csv',
      content: 'machine,date,gross,period_from,period_to\nM1,2026-11-24,1,,\nM1,2026-11-24,1,2026-11-16,',
    };
    const [plain, stated] = readDeposits(sheet, EURO).rows;
    expect(daysOfRow(plain!, 3)).toEqual({ first: dayNumber('2026-11-21'), last: dayNumber('2026-11-24') });
    expect(daysOfRow(stated!, 3)).toEqual({ first: dayNumber('2026-11-16'), last: dayNumber('2026-11-24') });
  });
});

describe('nameMachine', () => {
  it("is the operator's name, else what the machine calls itself", () => {
    const [known, unknown] = takeCounters(
      [
        { asset: 'A1', at: null },
        { asset: 'A9', at: null },
      ],
      roster,
    );
    expect([nameMachine(known!), nameMachine(unknown!)]).toEqual(['M1', 'A9']);
  });
});
