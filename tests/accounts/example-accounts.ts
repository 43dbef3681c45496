import type { DepositMatches } from '../../src/accounts/deposit-match.js';
import { findMachineOfDevice } from '../../src/accounts/device-sightings.js';
import type { LocationStatement } from '../../src/accounts/location-statement.js';
import { matchDeposits } from '../../src/accounts/match-deposits.js';
import { stateCommissions } from '../../src/accounts/state-commissions.js';
import { decimalsFromRoster, readDeposits } from '../../src/sheets/index.js';
import { type Counters, intervalsOf, rosterOf, takeCounters } from './machine-days.js';

const ROSTER = [
  'machine,asset,location,currency,has_cash,has_card,commission_percent,commission_base,tax_percent,tax_included',
  'M1,A1,"=Hall, 3",EUR,yes,yes,12.5,net,19,yes',
  'M2,A2,"=Hall, 3",EUR,yes,yes,8.875,gross,7,',
  'M3,A3,Yard,EUR,yes,yes,10,net,19,no',
  'M4,A4,Shed,EUR,yes,yes,10,gross,,',
  'M5,A5,Foyer,EUR,yes,yes,,,19,',
].join('\n');

const night = (day: number): string => `2026-11-${String(day).padStart(2, '0')} 00:05`;

/** Three nights of five machines: one with another's device, one whose counters started again, one whose cash is not known. */
export const EXAMPLE_COUNTERS: readonly Counters[] = [
  { asset: 'A1', at: night(16), cash: 100_000, card: 50_000, device: 'CR-1' },
  { asset: 'A1', at: night(17), cash: 101_000, card: 51_256, device: 'CR-1' },
  { asset: 'A1', at: night(18), cash: 102_000, card: 51_736, device: 'CR-1' },
  { asset: 'A2', at: night(16), cash: 200_000, card: 60_000, card2: 0, board: 'B1' },
  { asset: 'A2', at: night(18), cash: 700, card: 300, card2: 0, board: 'B2' },
  { asset: 'A3', at: night(16), cash: 30_000, card: 7_000 },
  { asset: 'A3', at: night(18), cash: 30_101, card: 7_000 },
  { asset: 'A4', at: night(16), card: 7_000 },
  { asset: 'A4', at: night(18), card: 7_500 },
  { asset: 'A5', at: night(16), cash: 1_000, card: 500 },
  { asset: 'A5', at: night(18), cash: 1_100, card: 500 },
];

const DEPOSITS = [
  'machine,device,date,gross,fees,net,reference,period_from,period_to',
  ',CR-1,2026-11-17,12.56,0.31,12.25,P-1,2026-11-16,2026-11-16',
  ',CR-1,2026-11-18,4.50,0.12,4.38,@P-2,2026-11-17,2026-11-17',
  'M2,,2026-11-18,3.00,,,P-3,2026-11-16,2026-11-17',
  'M9,,2026-11-18,1.00,0.05,0.95,,,',
].join('\n');

const roster = rosterOf(ROSTER);
const intervals = intervalsOf(EXAMPLE_COUNTERS, roster);

/** Deposits of the example, matched. */
export function matchExample(): DepositMatches {
  const { rows } = readDeposits(
    { file: 'deposits.csv', content: DEPOSITS },
    decimalsFromRoster(roster.books.machines, 2),
    findMachineOfDevice(takeCounters(EXAMPLE_COUNTERS, roster)),
  );
  return matchDeposits(intervals, rows, roster, { completeFrom: '2026-11-16', completeTo: '2026-11-30' });
}

/** Statements of the example's locations. */
export function stateExample(): LocationStatement[] {
  return stateCommissions(intervals, roster);
}
