import type { Step } from '../../interval/index.js';
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
    const lost = lossesOf(day);
    const known = lost.filter((amount) => amount !== null);
    if (known.length === 0) return stakeNotKnown(NO_HISTORY);
    return stakeOf(roundEstimate(known.reduce((sum, amount) => sum + amount, 0)), 'about', how);
  },
};

/** What was lost in the day's intervals in which counters went back; where it was before the day, since the last collections. */
function lossesOf(day: MachineDay): (Minor | null)[] {
  const own = day.intervals.filter(wentBack);
  if (own.length > 0) return own.map((interval) => lostIn(interval, interval.totals.value, day));
  return day.visits.flatMap(({ interval, expectedFrom }) =>
    interval !== null && wentBack(interval) ? [lostIn(interval, shownIn(interval, expectedFrom), day)] : [],
  );
}

/**
 * What the counters show of the time since a collection: from read to read they show more than between its two ends, since
 * what was counted before they went back is in the reads before that.
 */
function shownIn(interval: Step, parts: readonly Step[]): Minor | null {
  const known = parts.map(({ totals }) => totals.value).filter((value) => value !== null);
  return Math.max(
    interval.totals.value ?? 0,
    known.reduce((sum, value) => sum + value, 0),
  );
}

function wentBack({ findings }: Step): boolean {
  return findings.some((finding) => isListed(finding) && CAUSE_OF_CODE[finding.code] === 'counters-back');
}

function lostIn(interval: Step, shown: Minor | null, day: MachineDay): Minor | null {
  const stretch = outlineInterval(interval);
  if (stretch === null) return null;
  const usual = overMinutes(usualValue(day), minutesBetween(stretch.from, stretch.to));
  const lost = subtract(usual, shown ?? 0);
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

function missingIn(interval: Step, day: MachineDay): (Minor | null)[] {
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
