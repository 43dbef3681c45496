import { doubtsBehind, type Interval } from '../interval/index.js';
import { addAll, bestTime, type DepositRow } from '../model/index.js';
import { Roster } from '../sheets/index.js';
import { type CardStream, type LoneDeposit, sortIntoStreams } from './card-streams.js';
import { type DaySpan, dayNumber, moveToMidnight } from './days.js';
import { judgeMatch, type UntoldMatch } from './deposit-findings.js';
import { DEPOSIT_WINDOW_DAYS, type DepositMatch, type DepositMatches, type DepositOptions } from './deposit-match.js';
import { isFeeKnown, sumDeposits } from './deposit-totals.js';
import { shareFees } from './fee-share.js';
import { matchStream, type StreamGroup } from './match-stream.js';
import type { SheetFrame } from './place-stream.js';

/**
 * Hold what machines sold by card (ΔDA2, ΔDB2) against what the processor paid out, which may be a day or more later and net
 * of fees: it is the gross that is compared, to the minor unit.
 *
 * Amounts decide first: runs of sales and of deposits with one sum, in order of time, that share the days a deposit can be
 * for: its stated period, or the days since the deposit before it, give or take the window. What is left between them is
 * compared by days. Where two readings are equally good none is chosen, and where reads and deposits are not cut at the same
 * times a difference is claimed only as far as the days prove it.
 *
 * @param intervals - as `buildIntervals` gives them, machine by machine in order
 * @param deposits - rows of the processor's sheet; see `readDeposits`
 * @param roster - tells a machine that was not read from one that is not known
 * @throws RangeError when the window is no whole number of days, 0 or more, or the end of the day no time of day
 */
export function matchDeposits(
  intervals: readonly Interval[],
  deposits: readonly DepositRow[],
  roster: Roster = new Roster(),
  options: DepositOptions = {},
): DepositMatches {
  const { windowDays = DEPOSIT_WINDOW_DAYS, dayEndsAt = '00:00' } = options;
  if (!Number.isSafeInteger(windowDays) || windowDays < 0) throw new RangeError('the window is a number of days');
  const moveMinutes = moveToMidnight(dayEndsAt);
  if (moveMinutes === null) throw new RangeError('a day ends at a time such as 06:00');
  const { streams, lone } = sortIntoStreams(intervals, deposits, roster, windowDays);
  const frame: SheetFrame = {
    days: daysOfSheet(deposits, options),
    windowDays,
    cycleDays: longestCycle(deposits),
    moveMinutes,
  };
  const matches = [
    ...streams.flatMap((stream) => matchStream(stream, frame).map((group) => describeGroup(stream, group))),
    ...lone.map((each) => describeLone(each, roster)),
  ].map((match): DepositMatch => ({ ...match, findings: [...judgeMatch(match), ...doubtsBehind(match.intervals)] }));
  return { matches, totals: sumDeposits(matches) };
}

/** The days that the sheet covers. One that is said to be complete and has no deposit covers all up to its last day. */
function daysOfSheet(deposits: readonly DepositRow[], { completeFrom, completeTo }: DepositOptions): DaySpan | null {
  const days = deposits.map(({ date }) => date).sort();
  const first = completeFrom ?? days[0];
  const last = completeTo ?? days.at(-1);
  if (last === undefined) return null;
  return { first: first === undefined ? Number.NEGATIVE_INFINITY : dayNumber(first), last: dayNumber(last) };
}

/** Most days between two payments, or in one stated period. */
function longestCycle(deposits: readonly DepositRow[]): number | null {
  const days = [...new Set(deposits.map(({ date }) => dayNumber(date)))].sort((a, b) => a - b);
  const gaps = days.slice(1).map((day, i) => day - days[i]!);
  const periods = deposits.flatMap(({ date, periodFrom, periodTo }) =>
    periodFrom === null ? [] : [dayNumber(periodTo ?? date) - dayNumber(periodFrom) + 1],
  );
  const cycles = [...gaps, ...periods];
  return cycles.length === 0 ? null : cycles.reduce((most, cycle) => Math.max(most, cycle));
}

function describeGroup(stream: CardStream, { sales, deposits, ...verdict }: StreamGroup): UntoldMatch {
  const { machine, location, device, currency, decimals } = stream;
  const first = sales[0]?.interval.from ?? null;
  const last = sales.at(-1)?.interval.to ?? null;
  return {
    machine,
    location,
    device,
    currency: currency ?? deposits[0]?.currency ?? null,
    decimals,
    from: first === null ? null : bestTime(first),
    to: last === null ? null : bestTime(last),
    sales: sales.length === 0 ? null : addAll(sales.map(({ amount }) => amount)),
    salesIsFloor: sales.some(({ isFloor }) => isFloor),
    ...amountsOf(deposits),
    ...verdict,
    intervals: sales.map(({ interval }) => interval),
    deposits,
  };
}

function describeLone({ deposit, reason, machine }: LoneDeposit, roster: Roster): UntoldMatch {
  const { currency, decimals, device } = deposit;
  const isExtra = reason === 'unknown-machine' || reason === 'unknown-device';
  return {
    machine,
    location: machine === null ? null : (roster.machine(machine)?.location ?? null),
    device,
    currency,
    decimals,
    from: null,
    to: null,
    sales: null,
    salesIsFloor: false,
    ...amountsOf([deposit]),
    difference: isExtra ? deposit.gross : null,
    isAtLeast: false,
    state: isExtra ? 'extra' : 'unclear',
    reason,
    intervals: [],
    deposits: [deposit],
  };
}

/** The money of deposits. Fees are not known where one of them gives none, or gives figures that do not add up. */
function amountsOf(deposits: readonly DepositRow[]): Pick<UntoldMatch, 'gross' | 'fees' | 'net' | 'fee'> {
  if (deposits.length === 0) return { gross: null, fees: null, net: null, fee: null };
  const gross = addAll(deposits.map((row) => row.gross));
  const isKnown = deposits.every(isFeeKnown);
  const fees = isKnown ? addAll(deposits.map((row) => row.fees)) : null;
  return { gross, fees, net: isKnown ? addAll(deposits.map(({ net }) => net)) : null, fee: shareFees(fees, gross) };
}
