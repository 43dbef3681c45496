import { describe, expect, it } from 'vitest';
import { setAsideRule } from '../../../src/attention/rules/captures.js';
import { makeDay } from '../../../src/day/index.js';
import { type Finding, makeFinding } from '../../../src/findings/index.js';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { stepsOf, withSteps } from '../../day/with-steps.js';
import { bytesOf } from '../../support/latin1-bytes.js';
import { find } from './rule-scenario.js';

/** A machine that sold 10 at 2.00 a day for three days, read every evening. */
function sellThreeDays(office: DayScenario) {
  const machine = startMachine();
  office.take(machine, { at: '2026-11-20T20:00:00' }, { reason: 'service' });
  for (const day of ['21', '22', '23']) {
    sell(machine, '11', 10, `2026-11-${day}T20:00:00`);
    office.take(machine, {}, { reason: 'scheduled' });
  }
  return machine;
}

describe('a capture that cannot be used', () => {
  it('leaves at stake what the machine usually sells since its last good one', () => {
    const office = new DayScenario();
    const machine = sellThreeDays(office);
    sell(machine, '11', 10, '2026-11-24T20:00:00');
    office.take(machine, { capture: { crc: 'wrong' } }, { file: 'bad.dex' });
    const item = find(office.make('2026-11-24'), 'read-again');
    expect(item).toMatchObject({
      machine: 'M1',
      location: 'Library',
      severity: 'fault',
      stake: { amount: 2000, bound: 'about', perDay: null },
      currency: 'EUR',
      decimals: 2,
      cautions: ['harness', 'inside', 'tilt'],
    });
    expect(item!.what).toMatch(/^Capture bad\.dex cannot be used\. The integrity value/);
    expect(item!.codes).toEqual(expect.arrayContaining(['integrity-damaged', 'capture-unusable']));
  });

  it('leaves nothing at stake when a later one of the day is good', () => {
    const office = new DayScenario();
    const machine = sellThreeDays(office);
    sell(machine, '11', 4, '2026-11-24T12:00:00');
    office.take(machine, { capture: { cutAt: 300 } }, { file: 'cut.dex' });
    sell(machine, '11', 4, '2026-11-24T20:00:00');
    office.take(machine, {});
    const item = find(office.make('2026-11-24'), 'read-again');
    expect(item).toMatchObject({ stake: { amount: 0, bound: 'exact' } });
    expect(item!.what).toMatch(/A later capture of the day can be\.$/);
  });

  it('is one line with others of the same machine, and its cost not known without a history', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-24T08:00:00', capture: { crc: 'wrong' } }, { file: 'b.dex' });
    office.take(machine, { at: '2026-11-24T20:00:00', capture: { crc: 'wrong' } }, { file: 'c.dex' });
    const day = office.make('2026-11-24');
    const item = find(day, 'read-again');
    expect(day.attention.filter(({ cause }) => cause === 'read-again')).toHaveLength(1);
    expect(item!.what).toMatch(/^2 captures cannot be used: b\.dex, c\.dex\. The integrity value/);
    expect(item!.stake).toMatchObject({ amount: null, bound: null, perDay: null });
  });

  it('is counted to the end of the day where it does not say when it was taken', () => {
    const office = new DayScenario();
    sellThreeDays(office);
    const cut = bytesOf('DXS*T*VA*V1/1*1\r\nST*001*0001\r\nID1*SN100001*M****A100\r\n');
    office.addFile('cut.dex', cut, { day: '2026-11-24', receivedAt: null });
    const item = find(office.make('2026-11-24'), 'read-again');
    // 28 hours at 20.00 a day.
    expect(item!.stake).toMatchObject({ amount: 2300, bound: 'about' });
  });
});

describe('a capture with a doubt', () => {
  it('is to be compared, and what it may cost is not known', () => {
    const office = new DayScenario();
    const machine = sellThreeDays(office);
    office.take(machine, { at: '2026-11-24T20:00:00', capture: { seCount: 99 } });
    const item = find(office.make('2026-11-24'), 'capture-doubtful');
    expect(item).toMatchObject({ severity: 'doubt', codes: ['segment-count'], stake: { amount: null } });
    expect(item!.what).toMatch(/^SE says 99 segments/);
  });
});

describe('a file that was set aside', () => {
  it('is named with its reason, several in one line', () => {
    const office = new DayScenario();
    office.addFile('photo.jpg', bytesOf('\xff\xd8\xff\xe0 not a capture'), { day: '2026-11-24' });
    const one = find(office.make('2026-11-24'), 'set-aside');
    expect(one).toMatchObject({ machine: null, location: null, stake: { amount: null } });
    expect(one!.what).toMatch(/^File photo\.jpg was set aside\. /);
    office.addFile('empty.dex', bytesOf(''), { day: '2026-11-24' });
    const two = find(office.make('2026-11-24'), 'set-aside');
    expect(two!.what).toMatch(/^2 files were set aside: photo\.jpg, empty\.dex\. /);
    expect(two!.codes.toSorted()).toEqual(['empty-file', 'not-a-capture']);
  });
});

describe('a file that could not be read', () => {
  const unread = (file: string): Finding =>
    makeFinding('unreadable-file', `${file} could not be read: it is gone.`, { file });

  it('is not said to be set aside', () => {
    expect(setAsideRule.tell([unread('a.dex')], null as never)).toBe('a.dex could not be read: it is gone.');
    expect(setAsideRule.tell([unread('a.dex'), unread('b.dex')], null as never)).toMatch(
      /^2 files could not be read: a\.dex, b\.dex\. a\.dex could not be read: it is gone\./,
    );
  });
});

describe('a machine of the roster without a capture', () => {
  it('has at stake what it usually sells since its last one', () => {
    const office = new DayScenario();
    sellThreeDays(office);
    const item = find(office.make('2026-11-24'), 'not-read');
    // 28 hours at 20.00 a day.
    expect(item).toMatchObject({ machine: 'M1', codes: ['not-read-today'], stake: { amount: 2300, bound: 'about' } });
    expect(item!.what).toBe('No capture came; the last one is of 2026-11-23 20:00.');
  });

  it('may never have had one, or have only an older history', () => {
    const office = new DayScenario();
    const never = find(office.make('2026-11-24'), 'not-read');
    expect(never).toMatchObject({ what: 'No capture came, and none is known from before.', stake: { amount: null } });
    const past = [
      {
        from: '2026-11-01T00:00:00',
        to: '2026-11-22T00:00:00',
        currency: 'EUR',
        decimals: 2,
        sold: 210,
        value: 21_000,
        cashSales: null,
        cardSales: null,
        bills: null,
        floor: false,
        columns: [],
      },
    ];
    const known = find(office.make('2026-11-24', { past: new Map([['machine M1', past]]) }), 'not-read');
    expect(known).toMatchObject({
      what: 'No capture came; the last one is of 2026-11-22 00:00.',
      stake: { amount: 3000 },
    });
  });

  it('is not looked for when it is said to be out of use', () => {
    const office = new DayScenario({ machines: 'machine,asset,active\nM1,A100,no\nM2,A200,\n' });
    const list = office.make('2026-11-24').attention;
    expect(list.map(({ machine, cause }) => [machine, cause])).toEqual([['M2', 'not-read']]);
  });
});

describe('a machine that is on no roster', () => {
  it('has its sales at stake, which are in no account', () => {
    const office = new DayScenario({ machines: 'machine,asset\nM9,A900\n' });
    sellThreeDays(office);
    const item = find(office.make('2026-11-23'), 'unknown-machine');
    expect(item).toMatchObject({ machine: 'asset A100', location: null, stake: { amount: 2000, bound: 'exact' } });
    expect(
      office.make('2026-11-20').attention.find(({ cause }) => cause === 'unknown-machine')!.stake.amount,
    ).toBeNull();
  });

  it('has at least those at stake that are known', () => {
    const office = new DayScenario({ machines: 'machine,asset\nM9,A900\n' });
    const machine = sellThreeDays(office);
    sell(machine, '11', 1, '2026-11-23T21:00:00');
    office.take(machine, {});
    const inputs = office.inputs('2026-11-23');
    const [last, ...rest] = stepsOf(inputs).toReversed();
    const unknown = { ...last!, totals: { ...last!.totals, value: null } };
    const item = find(makeDay(withSteps(inputs, [...rest.toReversed(), unknown])), 'unknown-machine');
    expect(item!.stake).toMatchObject({ amount: 2000, bound: 'at-least' });
  });

  it('may be one that only a sheet names', () => {
    const office = new DayScenario();
    sellThreeDays(office);
    office.findings.push({
      code: 'unknown-machine',
      severity: 'doubt',
      message: 'Not on the roster.',
      machine: 'M7',
      row: 4,
    });
    const item = find(office.make('2026-11-23'), 'unknown-machine');
    expect(item).toMatchObject({ machine: 'M7', what: 'Not on the roster.', stake: { amount: null } });
  });
});

describe('a capture of another machine than was said', () => {
  it('is listed with the machine that it is of', () => {
    const office = new DayScenario({ machines: `${ONE_MACHINE}M2,A200,Hall,R7,EUR\n` });
    const machine = startMachine();
    office.take(machine, { at: '2026-11-24T20:00:00' }, { file: 'x.dex' });
    const inputs = office.inputs('2026-11-24');
    const finding = {
      code: 'other-machine',
      severity: 'fault',
      message: 'Said to be of M2.',
      file: 'x.dex',
      read: 0,
    } as const;
    const item = find(
      office.make('2026-11-24', { checks: [{ ...inputs.checks[0]!, findings: [finding] }] }),
      'other-machine',
    );
    expect(item).toMatchObject({ machine: 'M1', severity: 'fault', stake: { amount: null } });
  });
});
