import { type LocalDateTime, type Minor, minutesBetween } from '../model/index.js';
import { DAY_MINUTES, roundEstimate } from './estimate.js';
import { type MachineDay, stretchesInMoney } from './machine-day.js';
import { beforeQuiet, overMinutes, type PastStretch, type Rate, usualRate } from './sales-history.js';

/** What a machine usually takes in a time, from its own history before it went quiet; not rounded. */
export function usualValue(day: MachineDay): Rate | null {
  return usualRate(beforeQuiet(stretchesInMoney(day)), ({ value }) => value);
}

/** A usual figure for one day, as an estimate. */
export function perDay(rate: Rate | null): Minor | null {
  return roundEstimate(overMinutes(rate, DAY_MINUTES));
}

/** What a machine usually takes in a day, by a figure of its history, as an estimate. */
export function usualPerDay(day: MachineDay, pick: (stretch: PastStretch) => Minor | null): Minor | null {
  return perDay(usualRate(beforeQuiet(stretchesInMoney(day)), pick));
}

/** What it usually takes between two moments, as an estimate; null where either is not known. */
export function usualBetween(day: MachineDay, from: LocalDateTime | null, to: LocalDateTime | null): Minor | null {
  if (from === null || to === null) return null;
  return roundEstimate(overMinutes(usualValue(day), minutesBetween(from, to)));
}
