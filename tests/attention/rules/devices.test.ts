import { describe, expect, it } from 'vitest';
import { DayScenario, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { buildCapture } from '../../support/build-capture.js';
import type { MachineGiven, SimulatedMachine } from '../../support/simulator/index.js';
import { at, find } from './rule-scenario.js';

/** A machine that took 20.00 in coins and 10.00 by card a day for two days. */
function sellTwoDays(office: DayScenario, given: MachineGiven = {}): SimulatedMachine {
  const machine = startMachine({ devices: { card: true }, ...given });
  office.take(machine, { at: at(20) });
  for (const day of [21, 22]) {
    for (let i = 0; i < 10; i++) machine.sellByCard('12');
    sell(machine, '11', 10, at(day));
    office.take(machine, {});
  }
  return machine;
}

/** What a machine sends, with some of its segments left out. */
function sendWithout(office: DayScenario, machine: SimulatedMachine, when: string, ...ids: string[]): void {
  const { segments } = machine.read({ at: when });
  const bytes = buildCapture(segments.filter((segment) => !ids.includes(segment.split('*')[0]!)));
  office.addFile(`${when}.dex`, bytes, { day: when.slice(0, 10), receivedAt: when });
}

describe('devices that have gone silent', () => {
  it('are told by the read before where no roster says that they are there', () => {
    const office = new DayScenario();
    sendWithout(office, sellTwoDays(office), at(23), 'DA1');
    const item = find(office.make('2026-11-23'), 'device-silent');
    expect(item).toMatchObject({ machine: 'M1', codes: ['device-missing'], stake: { amount: null, perDay: 1000 } });
    expect(item!.what).toMatch(/^The card reader has gone silent: it reported in 20261122200000\.dex/);
    expect(item!.findings[0]).toMatchObject({ machine: 'M1', segment: 'DA1', read: 0 });
  });

  it('are told once where the roster says so as well, and have at stake what goes through all of them', () => {
    const machines = 'machine,asset,currency,has_card,has_cash\nM1,A100,EUR,yes,yes\n';
    const office = new DayScenario({ machines });
    sendWithout(office, sellTwoDays(office), at(23), 'DA1', 'CA1', 'CB1');
    const item = find(office.make('2026-11-23'), 'device-silent');
    expect(item!.findings.map(({ segment }) => segment)).toEqual(['CA1', 'DA1', 'CB1']);
    // 20.00 in coins and 10.00 by card, and all of it through the board.
    expect(item!.stake).toMatchObject({ amount: null, perDay: 6000 });
  });

  it('may come without a history, or with one that does not know what went through them', () => {
    const office = new DayScenario({ machines: 'machine,asset\n' });
    const machine = startMachine({ devices: { card: true } });
    office.take(machine, { at: at(22, '21:00:00') });
    sendWithout(office, machine, at(23), 'BA1');
    const item = find(office.make('2026-11-23'), 'device-silent');
    expect(item).toMatchObject({ machine: 'asset A100', stake: { amount: null, perDay: null } });
    expect(item!.findings[0]).not.toHaveProperty('machine');
  });

  it('are over when the last capture of the day has them again', () => {
    const machines = 'machine,asset,currency,has_card\nM1,A100,EUR,yes\n';
    const office = new DayScenario({ machines });
    const machine = sellTwoDays(office);
    sendWithout(office, machine, at(23, '12:00:00'), 'DA1');
    office.take(machine, { at: at(23) });
    const item = find(office.make('2026-11-23'), 'device-silent');
    expect(item!.what).toMatch(/^Earlier in the day, no longer in its last capture: The card reader does not report/);
    expect(item!.stake).toMatchObject({ amount: null, perDay: null });
  });

  it('may have no segment of which anything is known', () => {
    const office = new DayScenario();
    sellTwoDays(office);
    const finding = {
      code: 'device-missing',
      severity: 'doubt',
      message: 'Gone.',
      machine: 'M1',
      segment: 'XX1',
    } as const;
    office.findings.push(finding);
    expect(find(office.make('2026-11-22'), 'device-silent')!.stake).toMatchObject({ perDay: null });
  });
});

describe('faults that are active', () => {
  it('have at stake what the machine sells in a day, and the cautions of a cabinet and of food', () => {
    const office = new DayScenario();
    const machine = sellTwoDays(office);
    machine.raiseEvent('EAA');
    office.take(machine, { at: at(23) });
    const item = find(office.make('2026-11-23'), 'fault-active');
    expect(item).toMatchObject({ codes: ['event-active'], stake: { amount: null, perDay: 3000 } });
    expect(item!.cautions).toEqual(['harness', 'inside', 'tilt', 'food']);
    expect(item!.what).toMatch(/^The machine reports event EAA as active/);
  });

  it('are over when the last capture says so, and still on when that one cannot be used', () => {
    const office = new DayScenario();
    const machine = sellTwoDays(office);
    machine.raiseEvent('EAA');
    office.take(machine, { at: at(23, '08:00:00') });
    machine.clearEvent('EAA');
    office.take(machine, { at: at(23, '12:00:00'), capture: { crc: 'wrong' } });
    const still = find(office.make('2026-11-23'), 'fault-active');
    expect(still!.what).toMatch(/^The machine reports event/);
    office.take(machine, { at: at(23) });
    const over = find(office.make('2026-11-23'), 'fault-active');
    expect(over!.what).toMatch(/^Earlier in the day, no longer/);
    expect(over!.stake).toMatchObject({ amount: null, perDay: null });
  });

  it('are as they are said to be where nothing tells when', () => {
    const office = new DayScenario();
    const machine = startMachine({ maker: { clockStyle: 'short' } });
    machine.raiseEvent('EAA');
    const { segments } = machine.read({ at: at(23) });
    const clockless = buildCapture(segments.filter((segment) => !segment.startsWith('ID5')));
    office.addFile('x.dex', clockless, { day: '2026-11-23', receivedAt: null });
    const item = find(office.make('2026-11-23'), 'fault-active');
    expect(item!.what).toMatch(/^The machine reports event/);
    expect(item!.stake).toMatchObject({ perDay: null });
  });
});

describe('tubes without change, and clocks that are off', () => {
  it('are listed with what is to be done', () => {
    const office = new DayScenario();
    const machine = startMachine({ tubes: [{ value: 100, capacity: 60, coins: 0 }] });
    machine.setClock(7200);
    office.take(machine, { at: at(23) });
    const day = office.make('2026-11-23');
    expect(find(day, 'change-short')).toMatchObject({ codes: ['change-short'], stake: { amount: null } });
    expect(find(day, 'clock-wrong')).toMatchObject({ codes: ['clock-wrong'], stake: { amount: null } });
  });

  it('judge a clock by the first arrival of a read: a copy that came later says nothing of it', () => {
    const office = new DayScenario({ machines: ONE_MACHINE });
    const machine = startMachine();
    const { bytes } = office.take(machine, { at: at(23) }, { file: 'first.dex' });
    office.addFile('again.dex', bytes, { day: '2026-11-23', receivedAt: at(23, '22:30:00') });
    expect(find(office.make('2026-11-23'), 'clock-wrong')).toBeUndefined();
    expect(office.make('2026-11-23').files).toMatchObject({ doubtful: 0 });
  });

  it('tell of a clock that is wrong once, however often the read came', () => {
    const office = new DayScenario({ machines: ONE_MACHINE });
    const machine = startMachine();
    machine.setClock(7200);
    const { bytes } = office.take(machine, { at: at(23) }, { file: 'first.dex' });
    office.addFile('again.dex', bytes, { day: '2026-11-23', receivedAt: at(23, '22:30:00') });
    const item = find(office.make('2026-11-23'), 'clock-wrong')!;
    expect(item.findings.map(({ file }) => file)).toEqual(['first.dex']);
  });
});
