import { expect, it } from 'vitest';
import { eventsCheck } from '../../src/checks/events.js';
import { CABINET_CAUTIONS } from '../../src/findings/index.js';
import { changeSegments, checkCases, runCase } from '../support/check-cases.js';

const add = (...segments: string[]): string[] => changeSegments({ add: segments });

checkCases('events', eventsCheck, {
  clean: [
    // EA2*WaterAlarm*1*3: 1 since reset, 3 since initialisation (Lavazza Blue LB 2000 manual, section 15.2): a counter, and
    // nothing says that the alarm is active.
    { name: 'the event of the Lavazza manual', segments: add('EA2*WaterAlarm*1*3') },
    { name: 'an event that is over', segments: add('EA1*EGS*261123*0800', 'EA2*EGS*1*2*0') },
    { name: 'no failure bits', segments: add('MA5*FAIL*0', 'MA5*FAIL*0000', 'MA5*FAIL') },
    { name: 'other status', segments: add('MA5*TEMP*95*35') },
    { name: 'another column status', segments: add('PA1*13*150*****0') },
  ],
  failing: [
    {
      name: 'an active event',
      segments: add('EA2*EGS*2*3*1'),
      code: 'event-active',
      severity: 'doubt',
      message: /^The machine reports event EGS as active \(2 times since the last reset, 3 times in all\)\.$/,
      at: { segment: 'EA2', element: 'EA204', received: 'EGS' },
    },
    {
      name: 'an active event without code and counts',
      segments: add('EA2****1'),
      code: 'event-active',
      severity: 'doubt',
      message: /event without a code as active\.$/,
    },
    {
      // MA5 FAIL: sum of failure bits (manual L0190D, p. 42).
      name: 'failure bits',
      segments: add('MA5*FAIL*12'),
      code: 'event-active',
      severity: 'doubt',
      message: /failure bits 12/,
      at: { element: 'MA502' },
    },
    {
      // PA107 = 1: motor unplugged, on the machine of the manual (L0190D, p. 42).
      name: 'an unplugged motor',
      segments: add('PA1*13*150*****1'),
      code: 'event-active',
      severity: 'note',
      message: /^Column 13 reports status 1: on some machines, a motor not plugged in\.$/,
      at: { column: '13', element: 'PA107' },
    },
  ],
});

it('sends nobody to an active fault without the cautions', () => {
  const [finding] = runCase(eventsCheck, { name: 'active', segments: add('EA2*EGS*2*3*1') });
  expect(finding!.cautions).toEqual([...CABINET_CAUTIONS, 'food']);
});
