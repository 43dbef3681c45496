import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { DayDigest } from '../../../src/pages/index.js';
import { DayScenario, sell, startMachine } from '../../day/day-scenario.js';
import { demoInputs } from '../../day/demo-day.js';
import { HUGE_TEXT } from '../support/hostile.js';

function digest(inputs: ReturnType<typeof demoInputs>): DayDigest {
  const kept = new DayDigest();
  kept.add(inputs, makeDay(inputs));
  return kept;
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('what is kept of a batch', () => {
  it('is what every machine of the demo sold, as the day has it', () => {
    const inputs = demoInputs('2026-11-23');
    const day = makeDay(inputs);
    const kept = digest(inputs);
    expect(kept.machines.map(({ machine }) => machine)).toEqual(
      inputs.roster.books.machines.map(({ machine }) => machine),
    );
    for (const { machine, sold, value, isKnown, isExpected, reads, faulty } of kept.machines) {
      const rows = day.cash.filter((row) => row.machine === machine);
      expect(sold).toBe(rows.reduce((sum, row) => sum + row.sold!, 0));
      expect(value).toBe(rows.reduce((sum, row) => sum + row.value!, 0));
      expect({ isKnown, isExpected, faulty }).toEqual({ isKnown: true, isExpected: true, faulty: 0 });
      expect(reads).toBe(machine === 'V108' ? 1 : 2);
    }
    expect(kept.machines[0]).toMatchObject({ location: 'Library foyer', route: 'R7', driver: 'Robin Sample' });
    expect(kept.machines[0]!.lastRead).toBe('2026-11-23T22:00:20');
    expect(kept.doubtful.map(({ file }) => file)).toEqual(['2026-11-23-1047-v107.dex', '2026-11-23-2212-v107.dex']);
  });

  it('tells a damaged capture, and a read that came twice', () => {
    const kept = digest(demoInputs('2026-11-22'));
    expect(kept.machines.find(({ machine }) => machine === 'V107')).toMatchObject({ reads: 1, faulty: 1, sold: null });
    expect(kept.readAgain).toHaveLength(1);
    expect(kept.duplicates).toHaveLength(1);
    expect(kept.duplicates[0]!.said).toMatch(/^The same read as in /);
    expect(kept.setAside).toEqual([]);
  });

  it('sets aside files without a capture, and cuts what is said of them', () => {
    const office = new DayScenario();
    office.addFile('notes.txt', encode(HUGE_TEXT), { day: '2026-11-20', receivedAt: '2026-11-20T20:00:00' });
    const inputs = office.inputs('2026-11-20');
    const [check] = inputs.checks;
    const long = { ...check!, file: HUGE_TEXT, findings: [], headline: HUGE_TEXT };
    const kept = digest({ ...inputs, checks: [check!, long] });
    expect(kept.setAside.map(({ file }) => file.length)).toEqual([9, 301]);
    expect(kept.setAside[1]!.said.length).toBe(601);
  });

  it('lists machines that no roster has, expected ones that did not come, and no others', () => {
    const roster = 'machine,asset,route,active,currency,decimals\nM1,A100,R7,yes,EUR,2\nM2,A200,,,,\nM3,A300,,no,,\n';
    const office = new DayScenario({ machines: roster });
    const unknown = startMachine({ identity: { asset: 'A900', serial: 'SN9', board: 'CB9' } });
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' }, { file: 'one.dex' });
    office.take(unknown, { at: '2026-11-20T20:00:00' }, { file: 'two.dex' });
    const first = digest(office.inputs('2026-11-20'));
    expect(
      first.machines.map(({ machine, isKnown, isExpected, reads }) => [machine, isKnown, isExpected, reads]),
    ).toEqual([
      ['M1', true, true, 1],
      ['M2', true, true, 0],
      ['asset A900', false, false, 1],
    ]);
    expect(first.machines[0]).toMatchObject({ sold: null, value: null, intervals: 0, currency: 'EUR' });
    expect(first.machines[1]).toMatchObject({ lastRead: null, currency: null, decimals: null });
    sell(machine, '11', 3, '2026-11-21T20:00:00');
    office.take(machine, {}, { file: 'three.dex' });
    const second = digest(office.inputs('2026-11-21'));
    expect(second.machines.map(({ machine, sold }) => [machine, sold])).toEqual([
      ['M1', 3],
      ['M2', null],
    ]);
  });

  it('adds no money of different units, and says what is a floor', () => {
    const inputs = demoInputs('2026-11-23');
    const day = makeDay(inputs);
    const kept = new DayDigest();
    const cash = day.cash.map((row, place) => ({ ...row, decimals: place, flags: ['floor' as const] }));
    kept.add(inputs, { ...day, cash });
    expect(kept.machines[0]).toMatchObject({ value: null, isFloor: true });
    expect(kept.machines[0]!.sold).toBeGreaterThan(0);
  });
});
