import {
  type DepositMatch,
  type DepositMatches,
  type DepositTotals,
  type LocationStatement,
  type RoundedAmount,
  type StatementLine,
  shareFees,
  writeFraction,
  writePercent,
} from '../../accounts/index.js';
import { CAUTIONS } from '../../findings/index.js';
import type { Interval } from '../../interval/index.js';
import type { DepositRow } from '../../model/index.js';
import type { DepositsJson, StatementJson } from '../shapes/accounts.js';
import { findingToJson } from './finding-json.js';

/** Card sales against deposits as programs get it. */
export function depositsToJson({ matches, totals }: DepositMatches): DepositsJson {
  return { matches: matches.map(matchToJson), totals: totals.map(totalsToJson) };
}

function matchToJson(match: DepositMatch): DepositsJson['matches'][number] {
  const { machine, location, device, currency, decimals, state, reason, from, to, sales, salesIsFloor } = match;
  const { gross, fees, net, fee, difference, isAtLeast, deposits, intervals, findings } = match;
  return {
    machine,
    location,
    device,
    currency,
    decimals,
    state,
    reason,
    from,
    to,
    sales,
    salesIsFloor,
    gross,
    fees,
    net,
    feePercent: fee?.percent ?? null,
    difference,
    differenceIsAtLeast: isAtLeast,
    deposits: deposits.map(depositToJson),
    captures: capturesOf(intervals),
    findings: findings.map(findingToJson),
  };
}

function depositToJson(row: DepositRow): DepositsJson['matches'][number]['deposits'][number] {
  const { date, device, reference, periodFrom, periodTo, gross, fees, net, mismatch, place } = row;
  const feePercent = mismatch === null ? (shareFees(fees, gross)?.percent ?? null) : null;
  return { row: place.row, date, device, reference, periodFrom, periodTo, gross, fees, net, feePercent };
}

function totalsToJson(totals: DepositTotals): DepositsJson['totals'][number] {
  const { currency, decimals, deposits, gross, fees, net, fee, withoutFees, sales } = totals;
  return {
    currency,
    decimals,
    deposits,
    gross,
    fees,
    net,
    feePercent: fee?.percent ?? null,
    feesOfGross: fee?.gross ?? null,
    withoutFees,
    sales: { ...sales },
  };
}

/** A location's statement as programs get it. */
export function statementToJson(statement: LocationStatement): StatementJson {
  const { location, currency, decimals, from, to, cashSales, cardSales, gross, net, floors, lines } = statement;
  const { tax, taxOnTop, base, commission, findings } = statement;
  return {
    location,
    currency,
    decimals,
    from,
    to,
    cashSales,
    cardSales,
    gross,
    tax: roundedToJson(tax),
    net,
    taxOnTop: roundedToJson(taxOnTop),
    base: roundedToJson(base),
    commission: roundedToJson(commission),
    isFloor: Object.values(floors).includes(true),
    floors: { ...floors },
    lines: lines.map(lineToJson),
    caution: CAUTIONS.accounts,
    findings: findings.map(findingToJson),
  };
}

function lineToJson(line: StatementLine): StatementJson['lines'][number] {
  const { machine, from, to, cashSales, cardSales, sales, floors, isCashBookedAsCard, cashInside, intervals } = line;
  return {
    machine: machine.machine,
    from,
    to,
    cashSales,
    cardSales,
    sales,
    isFloor: Object.values(floors).includes(true),
    floors: { ...floors },
    cashIsBookedAsCard: isCashBookedAsCard,
    cashInCardSales: cashInside,
    commissionPercent: writePercent(machine.commission),
    commissionBase: machine.commissionBase,
    taxPercent: writePercent(machine.tax),
    taxIncluded: machine.taxIncluded,
    captures: capturesOf(intervals),
  };
}

function roundedToJson(rounded: RoundedAmount | null): StatementJson['tax'] {
  return rounded === null ? null : { amount: rounded.amount, remainder: writeFraction(rounded.remainder) };
}

/** The files that figures rest on, from the first read to the last. */
function capturesOf(intervals: readonly Interval[]): string[] {
  return [...new Set(intervals.flatMap(({ from, to }) => [from.file, to.file]))];
}
