import { describe, expect, it } from 'vitest';
import { nameMachine, periodOf } from '../../src/day/name-row.js';
import { buildInterval } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';

describe('nameMachine', () => {
  it('is the name on the roster, else what the machine calls itself', () => {
    const roster = new Roster({ machines: [machineRow({ location: 'Library', route: 'R7' })] });
    const named = takeSegments(['ID1*S1*M****A1'], { roster });
    expect(nameMachine(named)).toEqual({ machine: 'M1', location: 'Library', route: 'R7' });
    const other = takeSegments(['ID1*S1*M'], { roster });
    expect(nameMachine(other)).toEqual({ machine: 'serial S1', location: null, route: null });
  });
});

describe('periodOf', () => {
  it('goes by the time received before the clock', () => {
    const read = (clock: string, receivedAt: string | null) =>
      takeSegments(['ID1*S1*M****A1', 'ID4*2*978*EUR', `ID5*${clock}`], { receivedAt });
    const interval = buildInterval(read('261120*0800', '2026-11-20T08:02:00'), read('261121*0800', null), new Roster());
    expect(periodOf(interval)).toEqual({
      from: '2026-11-20T08:02:00',
      to: '2026-11-21T08:00:00',
      currency: 'EUR',
      decimals: 2,
    });
  });
});
