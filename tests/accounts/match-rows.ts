import type { DepositMatch, DepositOptions } from '../../src/accounts/deposit-match.js';
import { findMachineOfDevice } from '../../src/accounts/device-sightings.js';
import { matchDeposits } from '../../src/accounts/match-deposits.js';
import { decimalsFromRoster, Roster, readDeposits } from '../../src/sheets/index.js';
import { type Counters, intervalsOf, rosterOf, takeCounters } from './machine-days.js';

/** Three machines; the last takes no cards. */
export const ROSTER =
  'machine,asset,location,currency,has_card\nM1,A1,Hall,EUR,yes\nM2,A2,Foyer,EUR,yes\nM3,A3,Yard,EUR,no';
/** The columns of the deposits sheet. */
export const HEADER = 'machine,device,date,gross,fees,net,period_from,period_to';

/** What machines counted, and the rows of the deposits sheet. */
export interface Given {
  readonly counters: readonly Counters[];
  readonly deposits: readonly string[];
  readonly roster?: string | null;
  readonly header?: string;
  readonly options?: DepositOptions;
}

/** Card sales against deposits, from captures and a sheet. */
export function match({ counters, deposits, roster = ROSTER, header = HEADER, options = {} }: Given) {
  const known = roster === null ? new Roster() : rosterOf(roster);
  const sheet = readDeposits(
    { file: 'deposits.csv', content: [header, ...deposits].join('\n') },
    decimalsFromRoster(known.books.machines, 2),
    findMachineOfDevice(takeCounters(counters, known)),
  );
  return matchDeposits(intervalsOf(counters, known), sheet.rows, known, options);
}

/** A time of November. */
export const at = (day: number, time = '00:05') => `2026-11-${String(day).padStart(2, '0')} ${time}`;

/** Reads of one machine at night, one more than there are days; day 1 is the first of November. */
export function nights(
  sales: readonly number[],
  more: Partial<Counters> = {},
  time = '00:05',
  firstDay = 1,
): Counters[] {
  let card = 50_000;
  return [0, ...sales].map((sold, i) => {
    card += sold;
    return { at: at(firstDay + i, time), cash: 0, card, ...more };
  });
}

/** Deposits by `day gross`, for one machine. */
export const paid = (...deposits: readonly (readonly [day: number, gross: number, from?: number, to?: number])[]) =>
  deposits.map(([day, gross, from, to]) => {
    const date = (one: number | undefined) => (one === undefined ? '' : at(one).slice(0, 10));
    return `M1,,${date(day)},${(gross / 100).toFixed(2)},,,${date(from)},${date(to)}`;
  });

/** One line a match: sales, gross, state and reason, difference. */
export const show = ({ sales, gross, state, reason, difference, isAtLeast }: DepositMatch): string => {
  const least = isAtLeast ? '>=' : '';
  return `${sales ?? '-'} ${gross ?? '-'} ${state}${reason === null ? '' : ` ${reason}`} ${least}${difference ?? '-'}`;
};
/** The sheet is said to have all deposits of November. */
export const COMPLETE = { completeFrom: '2026-11-01', completeTo: '2026-11-30' };
/** The lines of all matches. */
export const shown = (given: Given): string[] => match(given).matches.map(show);
