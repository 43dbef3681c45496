import type { Finding } from '../findings/index.js';
import { makeFinding } from '../findings/index.js';
import { largestOf, type Minor, noteValues, smallestOf, subtract } from '../model/index.js';
import { canMake } from './can-make.js';
import { coversSameTime, type Difference, valueOrNothing } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** The value of bills taken in between two reads, and how it was read off. */
export interface BillsReading {
  readonly value: Minor | null;
  readonly how: 'value' | 'count' | 'none' | 'not-known';
  /** The counter it rests on; null when it is none of them. */
  readonly difference: Difference | null;
  readonly findings: readonly Finding[];
}

/** What cash came in, and where it went but for bills. */
export interface CoinMovements {
  readonly cashIn: Difference;
  readonly toCashBox: Difference;
  readonly toTubes: Difference;
}

/**
 * The value of the bills. CA310 is a value. Without it CA308 is one or, by an operator's setting, a number of bills
 * (Crane Autobar Infinity, p. 33, for CA304; CA308 from memory): with R = cash in − cash box − tubes it is a value if
 * R = n, and a number if n bills of the machine (CA14), else notes of the currency, make exactly R; then they are worth R. The
 * setting can be changed between two reads; then CA304 is asked, where it was cleared at the earlier one.
 */
export function readBills(pair: ReadPair, cash: CoinMovements): BillsReading {
  const remainder = takeRemainder(pair, cash);
  const stated = pair.difference('CA310', 'CA309');
  const counted = pair.difference('CA308', 'CA304');
  if (stated.value !== null && (remainder === null || remainder === stated.value)) {
    return { value: stated.value, how: stated.value === 0 ? 'none' : 'value', difference: stated, findings: [] };
  }
  // One that stays at 0 may be a counter that the machine does not keep.
  const mayFit = remainder !== null && (stated.value === null || stated.value === 0);
  const fitting = mayFit ? fitCounter(pair, counted, remainder) : null;
  if (fitting !== null) return fitting;
  if (stated.value !== null) return statedDiffers(pair, stated, remainder!);
  if (counted.value === null) return withoutCounter(pair, counted, remainder);
  if (remainder === null) return withoutRemainder(pair, counted, counted.value);
  return doubt(
    pair,
    `Bills moved by ${counted.value}, but cash in less box and tubes is ${pair.money(remainder)}: neither a value nor a number of bills fits.`,
  );
}

/** Cash in − cash box − tubes; null when one is not known, or they do not cover the same time. */
function takeRemainder(pair: ReadPair, { cashIn, toCashBox, toTubes }: CoinMovements): Minor | null {
  const inTubes = hasTubes(pair) ? toTubes.value : valueOrNothing(toTubes);
  const isMixed = [toCashBox, toTubes].some((other) => other.why !== 'absent' && !coversSameTime(cashIn, other));
  return isMixed ? null : subtract(subtract(cashIn.value, toCashBox.value), inTubes);
}

/** Whether coins may go to tubes, also where no counter says how many: then it is not known, and not none. */
const hasTubes = ({ from, to }: ReadPair): boolean =>
  [from, to].some(({ read }) => read.has('CA15') || read.has('CA17'));

/** CA308, else CA304 on its own, read as a value or as a number, whichever fits; null when neither does. */
function fitCounter(pair: ReadPair, counted: Difference, remainder: Minor): BillsReading | null {
  const setting = pair.to.profile?.bills;
  for (const n of [counted.value, ownInterval(pair)]) {
    if (n === null) continue;
    const found = { value: remainder, difference: n === counted.value ? counted : null };
    if (n === 0 && remainder === 0) return { ...found, how: 'none', findings: [] };
    if (setting !== 'count' && n === remainder) return { ...found, how: 'value', findings: [] };
    if (setting === 'value' || !isNumberOfBills(pair, remainder, n)) continue;
    const message = `The machine gives bills as a number (${n}); their value, ${pair.money(remainder)}, follows from cash in.`;
    return { ...found, how: 'count', findings: [makeFinding('bills-as-count', message, baseDetail(pair, 'CA308'))] };
  }
  return null;
}

/** CA304 where it covers just the time between the two reads; null when it does not. */
function ownInterval(pair: ReadPair): number | null {
  const { state, isCertain } = pair.resets;
  return state === 'cleared' && isCertain ? pair.to.read.integer('CA304') : null;
}

function statedDiffers(pair: ReadPair, stated: Difference, remainder: Minor): BillsReading {
  const value = stated.value!;
  const message = `Bills are ${pair.money(value)}, but cash in less box and tubes is ${pair.money(remainder)}.`;
  const findings = [makeFinding('cash-split', message, baseDetail(pair, 'CA310'))];
  return { value, how: value === 0 ? 'none' : 'value', difference: stated, findings };
}

/** A machine without a bill validator has no counter, and nothing is missing as long as cash in is box and tubes. */
function withoutCounter(pair: ReadPair, counted: Difference, remainder: Minor | null): BillsReading {
  // What went down may be a value that is a number now: that is no fault of the counter.
  const difference = counted.why === 'backward' ? null : counted;
  if (remainder === null) return { value: null, how: 'not-known', difference, findings: [] };
  if (remainder === 0) return { value: 0, how: 'none', difference, findings: [] };
  const amount = pair.money(remainder);
  if (counted.why === 'absent') {
    return doubt(pair, `${amount} came in that went neither to the box nor to the tubes, and no counter says where.`);
  }
  const [from, to] = [counted.from, counted.to].map((stand) => stand ?? 'nothing');
  const why = counted.why === 'backward' ? ', as if it had been set to give a number instead of a value' : '';
  return doubt(
    pair,
    `Cash in less box and tubes is ${amount}, but the bill counter (${from} then, ${to} now) does not tell what bills came${why}.`,
  );
}

function withoutRemainder(pair: ReadPair, counted: Difference, n: number): BillsReading {
  if (n === 0) return { value: 0, how: 'none', difference: counted, findings: [] };
  if (pair.to.profile?.bills === 'value') return { value: n, how: 'value', difference: counted, findings: [] };
  return doubt(
    pair,
    pair.to.profile?.bills === 'count'
      ? `${n} bills came in; without the cash-in counters their value is not known.`
      : `Bills moved by ${n}, and without the cash-in counters it cannot be told whether that is a value or a number.`,
  );
}

/** Whether `n` bills can be worth `value`. */
function isNumberOfBills(pair: ReadPair, value: Minor, n: number): boolean {
  return n > 0 && billSets(pair).some((bills) => canMake(value, n, bills));
}

/**
 * The bills that may have come: those the machine lists at either read (CA14), else the notes of the currency. A machine
 * that leaves zero segments out lists only bills that came since the last reset, so where somebody else cleared those in
 * between it may have taken others.
 */
function billSets({ from, to, currency, decimals, reset }: ReadPair): (readonly Minor[])[] {
  const listed = [from, to].flatMap(({ read }) => read.lines('CA14').map((line) => read.block.number(line, 1) ?? 0));
  const bills = [...new Set(listed.filter((value) => value > 0))];
  const notes = decimals === null ? null : noteValues(currency, decimals);
  if (bills.length === 0) return notes === null ? [] : [notes];
  if (reset !== 'unseen' || notes === null) return [bills];
  const [smallest, largest] = [smallestOf(bills), largestOf(bills)];
  return [bills, notes.filter((note) => note >= smallest && note <= largest)];
}

function doubt(pair: ReadPair, message: string): BillsReading {
  const findings = [makeFinding('cash-split', message, baseDetail(pair, 'CA308'))];
  return { value: null, how: 'not-known', difference: null, findings };
}
