import type { Finding } from '../findings/index.js';
import { makeFinding } from '../findings/index.js';
import { describeMoney, type Minor, noteRange, subtract } from '../model/index.js';
import type { Read } from '../read/index.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** The value of bills taken in between two reads, and how it was read off. */
export interface BillsReading {
  readonly value: Minor | null;
  readonly how: 'value' | 'count' | 'none' | 'not-known';
  readonly findings: readonly Finding[];
}

/**
 * The value of the bills. CA310 is a value. Without it CA308 is one or, by an operator's setting, a number of bills
 * (Crane Autobar Infinity, p. 33): with R = cash in − cash box − tubes it is a value if R = n, and a number if R / n lies
 * between the smallest and the largest bill; then the bills are worth R.
 */
export function readBills(
  pair: ReadPair,
  cash: { readonly cashIn: Minor | null; readonly toCashBox: Minor | null; readonly toTubes: Minor | null },
): BillsReading {
  const remainder = subtract(subtract(cash.cashIn, cash.toCashBox), cash.toTubes);
  const stated = pair.difference('CA310', 'CA309');
  if (stated.value !== null) return againstRemainder(pair, stated.value, remainder);
  const n = pair.difference('CA308', 'CA304').value;
  if (n === null) return withoutCounter(pair, remainder);
  const setting = pair.to.profile?.bills;
  if (remainder === null) {
    return setting === 'value' || n === 0
      ? { value: n, how: n === 0 ? 'none' : 'value', findings: [] }
      : doubt(
          pair,
          `Bills moved by ${n}, and without the cash-in counter it cannot be told whether that is a value or a number.`,
        );
  }
  if (n === 0 && remainder === 0) return { value: 0, how: 'none', findings: [] };
  if (setting !== 'count' && remainder === n) return { value: n, how: 'value', findings: [] };
  if (setting !== 'value' && isNumberOfBills(pair, remainder, n)) {
    const message = `The machine gives bills as a number (${n}); their value follows from cash in: ${money(pair, remainder)}.`;
    return {
      value: remainder,
      how: 'count',
      findings: [makeFinding('bills-as-count', message, baseDetail(pair, 'CA308'))],
    };
  }
  return doubt(
    pair,
    `Bills moved by ${n}, but cash in less box and tubes is ${money(pair, remainder)}: neither a value nor a number of bills fits.`,
  );
}

function againstRemainder(pair: ReadPair, value: Minor, remainder: Minor | null): BillsReading {
  const how = value === 0 ? 'none' : 'value';
  if (remainder === null || remainder === value) return { value, how, findings: [] };
  const message = `Bills are ${money(pair, value)}, but cash in less box and tubes is ${money(pair, remainder)}.`;
  return { value, how, findings: [makeFinding('cash-split', message, baseDetail(pair, 'CA310'))] };
}

/** A machine without a bill validator has no counter, and nothing is missing as long as cash in is box and tubes. */
function withoutCounter(pair: ReadPair, remainder: Minor | null): BillsReading {
  if (remainder === null) return { value: null, how: 'not-known', findings: [] };
  if (remainder === 0) return { value: 0, how: 'none', findings: [] };
  return doubt(
    pair,
    `${money(pair, remainder)} came in that went neither to the box nor to the tubes, and no counter says where.`,
  );
}

function isNumberOfBills(pair: ReadPair, remainder: Minor, n: number): boolean {
  if (n <= 0) return false;
  const range = billRange(pair.to.read, pair.to.currency, pair.to.decimals);
  if (range === null) return false;
  const mean = remainder / n;
  return mean >= range.smallest && mean <= range.largest;
}

/** Smallest and largest bill: those the machine lists (CA14), else the currency's notes. */
function billRange(
  read: Read,
  currency: string | null,
  decimals: number | null,
): { smallest: Minor; largest: Minor } | null {
  const listed: number[] = [];
  for (const line of read.lines('CA14')) {
    const value = read.block.number(line, 1);
    if (value !== null && value > 0) listed.push(value);
  }
  if (listed.length > 0) return { smallest: Math.min(...listed), largest: Math.max(...listed) };
  return decimals === null ? null : noteRange(currency, decimals);
}

function doubt(pair: ReadPair, message: string): BillsReading {
  return { value: null, how: 'not-known', findings: [makeFinding('cash-split', message, baseDetail(pair, 'CA308'))] };
}

const money = (pair: ReadPair, amount: Minor): string => describeMoney(amount, pair.to.decimals, pair.to.currency);
