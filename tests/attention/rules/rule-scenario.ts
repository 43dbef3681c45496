import type { AttentionCause, AttentionItem } from '../../../src/attention/index.js';
import type { Day } from '../../../src/day/index.js';
import { type DayScenario, sell, startMachine } from '../../day/day-scenario.js';
import type { MachineGiven, SimulatedMachine } from '../../support/simulator/index.js';

/** The item of one cause. */
export function find({ attention }: Day, cause: AttentionCause): AttentionItem | undefined {
  return attention.find((item) => item.cause === cause);
}

/** A moment of November 2026. */
export const at = (day: number, time = '20:00:00'): string => `2026-11-${day}T${time}`;

/** What happens to a machine until a moment. */
export type Happening = (machine: SimulatedMachine, until: string) => void;

/** Some vends of a column. */
export const selling =
  (column: string, times: number): Happening =>
  (machine, until) =>
    sell(machine, column, times, until);

/** A machine read every evening from the 20th on, the first a service read; what happens before each other one is given. */
export function live(
  office: DayScenario,
  happenings: readonly Happening[],
  given: MachineGiven = {},
): SimulatedMachine {
  const machine = startMachine(given);
  office.take(machine, { at: at(20), service: true }, { reason: 'service' });
  happenings.forEach((happen, place) => {
    happen(machine, at(21 + place));
    machine.advanceTo(at(21 + place));
    office.take(machine, {}, { reason: 'scheduled' });
  });
  return machine;
}
