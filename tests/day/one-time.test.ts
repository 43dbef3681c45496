import { describe, expect, it } from 'vitest';
import { stateCommissions } from '../../src/accounts/index.js';
import { makeDay } from '../../src/day/index.js';
import type { Interval } from '../../src/interval/index.js';
import { intervalToJson } from '../../src/report/index.js';
import { buildCapture } from '../support/build-capture.js';
import { DayScenario } from './day-scenario.js';
import { stepsOf } from './with-steps.js';

const MACHINES = 'machine,asset,location,route,currency,commission_percent,has_card\nM1,A1,Library,R7,EUR,10,no\n';

/** The machine's clock stands in January; the reader that took the capture says that it is November. */
function capture(read: { readonly clock: string; readonly appended: string; readonly vends: number }): Uint8Array {
  const { clock, appended, vends } = read;
  return buildCapture(
    [
      'ID1*S1*M****A1',
      'ID4*2**EUR',
      `ID5*${clock}*0900`,
      `VA1*${vends * 100}*${vends}`,
      `CA2*${vends * 100}*${vends}`,
      `CA3*0*0*0*0*${vends * 100}*${vends * 100}*0*0`,
      'CA4*0*0*0*0',
      'PA1*11*100',
      `PA2*${vends}*${vends * 100}`,
    ],
    { stAppend: appended },
  );
}

// Three times of a read made a visit in November, sales in January, and no statement for November.
describe('a read whose clock is in January and whose reader says November', () => {
  const scenario = new DayScenario({ machines: MACHINES });
  const arrival = { receivedAt: null, reason: 'service' } as const;
  scenario.addFile('a.dex', capture({ clock: '260104', appended: '261122090000', vends: 100 }), {
    ...arrival,
    day: '2026-11-22',
  });
  scenario.addFile('b.dex', capture({ clock: '260105', appended: '261123090000', vends: 106 }), {
    ...arrival,
    day: '2026-11-23',
  });
  const inputs = scenario.inputs('2026-11-23');
  const day = makeDay(inputs);
  const period = { from: '2026-11-22T09:00:00', to: '2026-11-23T09:00:00' };

  it('is in one day, whoever asks', () => {
    const [visit] = day.settlements.flatMap(({ visits }) => visits);
    expect(visit).toMatchObject({ visitedAt: '2026-11-23T09:00:00', state: 'uncounted' });
    expect(day.sales).toMatchObject([{ ...period, sold: 6 }]);
    expect(day.refill).toMatchObject([{ until: '2026-11-23T09:00:00' }]);
    const intervals = stepsOf(inputs) as Interval[];
    expect(stateCommissions(intervals, inputs.roster, { from: '2026-11-01', to: '2026-11-30' })).toMatchObject([
      { ...period, gross: 600 },
    ]);
    expect(stateCommissions(intervals, inputs.roster, { from: '2026-01-01', to: '2026-01-31' })).toMatchObject([
      { gross: null },
    ]);
  });

  it('keeps what its time is known from', () => {
    expect(intervalToJson(stepsOf(inputs)[0] as Interval).to).toMatchObject({
      time: '2026-11-23T09:00:00',
      timeKind: 'appended',
      clock: '2026-01-05T09:00:00',
    });
  });
});
