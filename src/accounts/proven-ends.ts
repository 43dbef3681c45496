import { bestTime } from '../model/index.js';
import { countDays, MIDNIGHT_MINUTES } from './days.js';
import { isStated } from './deposit-order.js';
import { type Group, isEstimate, isFloor } from './judge-group.js';
import { isRagged, type PlacedDeposit, type PlacedSale } from './place-stream.js';

/** What equal sums prove of the rest. */
export interface ProvenEnds {
  /** All sales; those whose ends are proven are no longer ragged there. */
  readonly sales: ReadonlyMap<PlacedSale, PlacedSale>;
  /** Deposits whose money is accounted for to the cent, so that no part of it is for other sales. */
  readonly spent: ReadonlySet<PlacedDeposit>;
}

const DAY_MINUTES = 24 * 60;

/**
 * Where a deposit for whole days is to the cent what was sold between two reads that are whole days apart, these reads stand
 * for the end of the processor's day: what begins or ends there lies inside of no day. Between two ends so proven everything
 * is whole, if it is whole days too.
 */
export function proveEnds(sales: readonly PlacedSale[], equal: readonly Group[]): ProvenEnds {
  const proofs = equal.filter((group) => isProof(group, sales));
  const proven = new Set(proofs.flatMap((group) => group.sales));
  const sealed = new Map<PlacedSale, PlacedSale>();
  let start = 0;
  for (const [i, sale] of sales.entries()) {
    if (proven.has(sale)) sealed.set(sale, makeWhole(sale));
    if (i < start || proven.has(sale)) continue;
    let end = i + 1;
    while (end < sales.length && sales[end]!.isNext && !proven.has(sales[end]!)) end++;
    start = end;
    const run = sales.slice(i, end);
    const before = sale.isNext ? proven.has(sales[i - 1]!) : false;
    const after = sales[end]?.isNext === true && proven.has(sales[end]!);
    sealRun(run, before, after).forEach((each, k) => void sealed.set(run[k]!, each));
  }
  return { sales: sealed, spent: new Set(proofs.flatMap(({ deposits }) => deposits)) };
}

/** Sales that follow each other, of which the one before, or the one after, is proven. */
function sealRun(run: readonly PlacedSale[], isProvenBefore: boolean, isProvenAfter: boolean): PlacedSale[] {
  const [first, last] = [run[0]!, run.at(-1)!];
  const isBothProven = isProvenBefore && isProvenAfter;
  // Ends at two times of day cannot both be those of the processor's day.
  if (isBothProven && wholeDaysOf(run) === null && (first.beginsRagged || last.endsRagged)) return [...run];
  const isWhole = (isProvenBefore || !first.beginsRagged) && (isProvenAfter || !last.endsRagged);
  if (isWhole) return run.map(makeWhole);
  return run.map((sale) => ({
    ...sale,
    beginsRagged: sale.beginsRagged && !(sale === first && isProvenBefore),
    endsRagged: sale.endsRagged && !(sale === last && isProvenAfter),
  }));
}

function makeWhole(sale: PlacedSale): PlacedSale {
  return isRagged(sale) ? { ...sale, beginsRagged: false, endsRagged: false, isProven: true } : sale;
}

function isProof(group: Group, all: readonly PlacedSale[]): boolean {
  const { sales, deposits } = group;
  if (isFloor(sales) || isEstimate(sales)) return false;
  const from = all.indexOf(sales[0]!);
  const isUnbroken = sales.every((sale, i) => sale === all[from + i] && (i === 0 || sale.isNext));
  if (!isUnbroken) return false;
  if (!sales.some(isRagged)) return true;
  const days = wholeDaysOf(sales);
  return (
    days !== null &&
    (deposits.some(({ row }) => !isStated(row)) || countDays(deposits.map(({ dated }) => dated.span)) === days)
  );
}

/** How many whole days lie between the first and the last read, give or take an hour; null when it is no whole number. */
function wholeDaysOf(sales: readonly PlacedSale[]): number | null {
  const [from, to] = [bestTime(sales[0]!.sales[0]!.interval.from)!, bestTime(sales.at(-1)!.sales.at(-1)!.interval.to)!];
  const days = Math.round(minutesBetween(from, to) / DAY_MINUTES);
  return days > 0 && Math.abs(minutesBetween(from, to) - days * DAY_MINUTES) <= MIDNIGHT_MINUTES ? days : null;
}

// A zone must be named for the arithmetic to be the same on every machine.
const minutesBetween = (from: string, to: string): number => (Date.parse(`${to}Z`) - Date.parse(`${from}Z`)) / 60_000;
