import type { Interval } from '../../interval/index.js';
import { type Minor, minutesBetween, subtract } from '../../model/index.js';
import { type CauseRule, tellWorst } from '../cause-rule.js';
import { CAUSE_OF_CODE, isListed } from '../causes.js';
import { roundEstimate } from '../estimate.js';
import { type MachineDay, stretchesInMoney } from '../machine-day.js';
import { minutesOf, ofColumn, outlineInterval, overMinutes, usualRate } from '../sales-history.js';
import { stakeNotKnown, stakeOf } from '../stake.js';
import { usualValue } from '../usual-day.js';

const NO_HISTORY = 'Not known: less than a day of its sales is known.';

/** Counters that went back, boards changed, memories cleared. */
export const countersBackRule: CauseRule = {
  cause: 'counters-back',
  todo: 'Ask who changed the board or cleared the memory; read again and compare.',
  cautions: ['accounts'],
  tell: tellWorst,
  weigh(_, day) {
    const how = 'What it usually sells in that time, less what its counters show: the rest is lost to them.';
    const lost = intervalsOf(day).map((interval) => lostIn(interval, day));
    const known = lost.filter((amount) => amount !== null);
    if (known.length === 0) return stakeNotKnown(NO_HISTORY);
    return stakeOf(roundEstimate(known.reduce((sum, amount) => sum + amount, 0)), 'about', how);
  },
};

/** The day's intervals in which counters went back; where it was before the day, those of its visits. */
function intervalsOf({ intervals, visits }: MachineDay): readonly Interval[] {
  const own = intervals.filter(wentBack);
  const since = visits.map(({ interval }) => interval).filter((interval) => interval !== null);
  return own.length > 0 ? own : since.filter(wentBack);
}

function wentBack({ findings }: Interval): boolean {
  return findings.some((finding) => isListed(finding) && CAUSE_OF_CODE[finding.code] === 'counters-back');
}

function lostIn(interval: Interval, day: MachineDay): Minor | null {
  const stretch = outlineInterval(interval);
  if (stretch === null) return null;
  const usual = overMinutes(usualValue(day), minutesBetween(stretch.from, stretch.to));
  const lost = subtract(usual, stretch.value ?? 0);
  return lost === null ? null : Math.max(0, lost);
}

/** Counters and columns that are not there, or show only the least it can have been. */
export const countersMissingRule: CauseRule = {
  cause: 'counters-missing',
  todo: 'Look why the machine leaves them out: other columns, another set-up, or a part that does not report.',
  cautions: [],
  tell: tellWorst,
  weigh(_, day) {
    const how = 'What the columns without a figure usually sell in that time.';
    const amounts = day.intervals.flatMap((interval) => missingIn(interval, day));
    const known = amounts.filter((amount) => amount !== null);
    if (known.length === 0) return stakeNotKnown('Not known: the history of its columns does not tell.');
    return stakeOf(roundEstimate(known.reduce((sum, amount) => sum + amount, 0)), 'about', how);
  },
};

function missingIn(interval: Interval, day: MachineDay): (Minor | null)[] {
  const stretch = outlineInterval(interval);
  if (stretch === null) return [];
  const missing = interval.columns.filter(({ value }) => value === null);
  return missing.map(({ column }) => {
    const usual = usualRate(
      stretchesInMoney(day),
      ofColumn(column, ({ value }) => value),
    );
    return overMinutes(usual, minutesOf(stretch));
  });
}
