import type { Difference, Interval } from '../interval/index.js';
import { add, type Minor, subtract } from '../model/index.js';

/** Which of a machine's card devices: the first (DA), the second (DB), or both together. */
export type DeviceSlot = 1 | 2 | 'both';

/** What one interval sold by card. */
export interface CardSales {
  readonly interval: Interval;
  /** Without cash sales that the counters hold, as far as these are known. */
  readonly amount: Minor | null;
  /** Cash sales that were booked as card sales and are not in the amount; 0 where none are recognised. */
  readonly cashInside: Minor | null;
  /** The true figure may be higher. */
  readonly isFloor: boolean;
  /**
   * The counters hold cash sales too, or may: the amount is without them as far as they are known, as cash in less what went
   * back, and so an estimate.
   */
  readonly isCashBookedAsCard: boolean;
}

/** Whether the interval's reads count sales of a device at all. */
export function countsDevice({ differences }: Interval, slot: 1 | 2): boolean {
  return differenceOf(differences, slot).why !== 'absent';
}

/**
 * ΔDA2, ΔDB2 or both of an interval. Where neither read has a counter, nothing was sold by card, unless the roster or a
 * deposit says that there is a reader.
 *
 * @param isReaderKnown - whether something else than the roster says so
 */
export function measureCardSales(interval: Interval, slot: DeviceSlot, isReaderKnown: boolean): CardSales {
  const counted = ([1, 2] as const).filter((one) => (slot === 'both' || slot === one) && countsDevice(interval, one));
  const isNone = counted.length === 0 && !isReaderKnown && interval.to.machine?.hasCard !== true;
  const counters = counted.map((one) => differenceOf(interval.differences, one));
  const moved = isNone ? 0 : amountOf(interval, slot, counters);
  const isRecognised = interval.cash.isCashBookedAsCard;
  // A counter that did not move holds no cash sales, whatever the other one does.
  const isCashBookedAsCard = moved !== 0 && (isRecognised || mayHoldCash(interval));
  const cashInside = isCashBookedAsCard && isRecognised ? findCashInside(interval, slot) : 0;
  return {
    interval,
    amount: subtract(moved, cashInside),
    cashInside,
    isFloor: counters.some(({ floor }) => floor),
    isCashBookedAsCard,
  };
}

function differenceOf({ cardSales1, cardSales2 }: Interval['differences'], slot: 1 | 2): Difference {
  return slot === 1 ? cardSales1 : cardSales2;
}

/** One device alone is known only where the money of both reads is the same, which the sum over both looks at itself. */
function amountOf({ cash, pair }: Interval, slot: DeviceSlot, counters: readonly Difference[]): Minor | null {
  if (counters.length === 0) return null;
  if (slot === 'both') return cash.cardSales;
  return pair.isSameMoney ? counters[0]!.value : null;
}

/**
 * Whether cash came in that may have been kept, and no cash sales were counted: where that is not enough to recognise cash
 * sales booked as card sales, it is enough to claim nothing of the card sales.
 */
function mayHoldCash({ cash, differences }: Interval): boolean {
  const isNoneCounted = cash.cashSales === 0 || cash.cashSales === null;
  return isNoneCounted && cash.cashIn !== null && cash.cashIn > 0 && cashKept({ cash, differences }) !== 0;
}

/** Cash that customers put in and neither got back, nor lost, nor loaded onto a card. */
function cashKept({ cash, differences }: Pick<Interval, 'cash' | 'differences'>): Minor | null {
  const { overpaid, credited1, credited2 } = differences;
  const back = add(cash.dispensed, valueOrNothing(overpaid), valueOrNothing(credited1), valueOrNothing(credited2));
  return subtract(cash.cashIn, back);
}

/** Cash sales that were booked as card sales. In which of two devices they were booked is not known. */
function findCashInside({ cash, differences }: Interval, slot: DeviceSlot): Minor | null {
  const other = slot === 'both' ? null : differenceOf(differences, slot === 1 ? 2 : 1);
  const isOnly = other === null || other.value === 0 || other.why === 'absent';
  return isOnly ? cashKept({ cash, differences }) : null;
}

const valueOrNothing = ({ value, why }: Difference): Minor | null => (why === 'absent' ? 0 : value);
