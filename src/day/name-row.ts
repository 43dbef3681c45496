import type { PlacedRead, Step } from '../interval/index.js';
import { bestTime, machineKey, nameOfMachineKey } from '../model/index.js';
import type { DayMachine, Period } from './day.js';

/** What the machine of a read is called in the day's rows. A read in an interval always says whose it is. */
export function nameMachine(taken: PlacedRead): DayMachine {
  const { machine } = taken;
  return {
    machine: nameOfMachineKey(machineKey(taken)!),
    location: machine?.location ?? null,
    route: machine?.route ?? null,
  };
}

/** When an interval was, and in which money it is. */
export function periodOf({ from, to, currency, decimals }: Step): Period {
  return { from: bestTime(from), to: bestTime(to), currency, decimals };
}
