import { countOf, writeDuration, writeWhen } from '../checks/wording.js';
import { type Finding, makeFinding } from '../findings/index.js';
import { DAY_MINUTES } from './estimate.js';
import { judgeQuiet } from './judge-quiet.js';
import type { MachineDay } from './machine-day.js';
import { isQuiet, outlineInterval } from './sales-history.js';

/** Says that a machine which used to sell has stopped, and how that was judged. Only of one that was read that day. */
export function findSalesStopped(day: MachineDay): Finding[] {
  const { intervals, name, lastStretch } = day;
  const last = intervals.at(-1);
  if (last === undefined || outlineInterval(last) === null) return [];
  // Of one that sold to the end it need not be asked what it did before.
  if (lastStretch !== null && !isQuiet(lastStretch)) return [];
  const quiet = judgeQuiet(day.stretches);
  if (quiet === null) return [];
  const { since, minutes, soldBefore, minutesBefore } = quiet;
  const expected = Math.round((soldBefore * minutes) / minutesBefore);
  const daily = Math.round((soldBefore * DAY_MINUTES) / minutesBefore);
  const message = `It has sold nothing since ${writeWhen(since)} (${writeDuration(minutes)}), where about ${countOf(expected, 'vend')} were to be expected: before, it sold about ${daily} a day. By chance that happens less than once in 1000 times.`;
  return [
    makeFinding('sales-stopped', message, {
      file: last.to.file,
      read: last.to.read.number,
      ...(name.row === null ? {} : { machine: name.row.machine }),
      related: [{ file: last.from.file, read: last.from.read.number }],
    }),
  ];
}
