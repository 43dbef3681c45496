import { clockCheck, clockJumpCheck } from '../../src/checks/clock.js';
import { changeSegments, checkCases } from '../support/check-cases.js';

const clock = (date: string, time: string): string[] => changeSegments({ put: [`ID5*${date}*${time}`] });
const receivedAt = '2026-11-24T10:20:00';

checkCases('clock', clockCheck, {
  clean: [
    { name: 'a clock within the tolerance', context: { receivedAt } },
    { name: 'a clock just at the tolerance', context: { receivedAt: '2026-11-24T10:25:00' } },
    { name: 'a wrong clock with nothing to hold it against', segments: clock('200101', '0000') },
    { name: 'no clock', segments: changeSegments({ without: ['ID5'] }), context: { receivedAt } },
    { name: 'a clock as the reader appended it', capture: { stAppend: '261124101600' } },
  ],
  failing: [
    {
      name: 'a clock behind',
      segments: clock('261124', '0955'),
      context: { receivedAt },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /^The machine's clock shows 2026-11-24 09:55, 25 minutes behind the time it was received\.$/,
      at: { segment: 'ID5', element: 'ID501', received: '2026-11-24T09:55:00' },
    },
    {
      name: 'a clock ahead of what the reader appended',
      segments: clock('261124', '1200'),
      capture: { stAppend: '261124101500' },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /1 h 45 min ahead of the time the reader appended\.$/,
    },
    {
      name: 'the time received before what the reader appended',
      capture: { stAppend: '261124101500' },
      context: { receivedAt: '2026-11-24T13:15:00' },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /3 hours behind the time it was received/,
    },
    {
      // Clocks jump at daylight-saving changes (domain rule).
      name: 'one hour',
      segments: clock('261124', '1123'),
      context: { receivedAt },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /1 h 3 min ahead of .*: about one hour, so a change to or from daylight saving was probably missed\.$/,
    },
    {
      name: 'a factory date',
      segments: clock('000101', '0012'),
      context: { receivedAt },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /shows 2000-01-01 00:12, \d+ days behind .*factory date and was never set\.$/,
    },
    {
      name: 'New Year itself with a small drift',
      segments: clock('270101', '0000'),
      context: { receivedAt: '2027-01-01T05:00:00' },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /5 hours behind the time it was received\.$/,
    },
    {
      name: 'a narrow tolerance',
      context: { receivedAt, clockToleranceMinutes: 4 },
      code: 'clock-wrong',
      severity: 'doubt',
      message: /5 minutes behind/,
    },
  ],
});

const changed = (line: string): string[] => changeSegments({ add: [line] });

checkCases('clock jump', clockJumpCheck, {
  clean: [
    { name: 'a change before the last read', segments: changed('EA6*261110*1000*261110*1200') },
    { name: 'a small change', segments: changed('EA6*261120*1000*261120*1005') },
    { name: 'a change without its dates', segments: changed('EA6**1000*261120*1200') },
    {
      name: 'a change of unknown order',
      segments: changeSegments({ put: ['EA3*5'], add: ['EA6*261120*1000*261120*1200'] }),
    },
  ],
  failing: [
    {
      name: 'a change forward',
      segments: changed('EA6*261120*1000*261120*1200'),
      code: 'clock-jump',
      severity: 'doubt',
      message:
        /^The clock was put forward by 2 hours since the last read \(from 2026-11-20 10:00 to 2026-11-20 12:00\)\.$/,
      at: { segment: 'EA6', element: 'EA603' },
    },
    {
      name: 'a change back to before the last read',
      segments: changed('EA6*261120*1000*261101*1000'),
      code: 'clock-jump',
      severity: 'doubt',
      message: /put back by 19 days/,
    },
    {
      name: 'a change since the last good read',
      segments: changed('EA6*261110*1000*261110*1200'),
      context: { lastGood: { clock: '2026-11-01T10:00:00', columns: [], has: () => false } },
      code: 'clock-jump',
      severity: 'doubt',
    },
  ],
});
