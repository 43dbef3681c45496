import type { DayInputs } from '../../src/day/index.js';
import { listReads, listSteps, type Step, type TakenRead } from '../../src/interval/index.js';

/** What a day is made from with other steps in place of those that its reads give. */
export function withSteps(inputs: DayInputs, steps: readonly Step[]): DayInputs {
  const stepTo = new Map(steps.map((step) => [step.to, step]));
  const machines = [...inputs.histories.machines].map(([key, history]) => [key, { ...history, stepTo }] as const);
  return { ...inputs, histories: { ...inputs.histories, machines: new Map(machines) } };
}

/** The steps that a day is made from. */
export const stepsOf = ({ histories }: DayInputs): Step[] => listSteps(histories);

/** All reads of machines that a day is made from, with their contents. */
export const readsOf = ({ histories: { machines } }: Pick<DayInputs, 'histories'>): TakenRead[] =>
  [...machines.values()].flatMap((history) => listReads(history).map((placed) => history.contentsOf(placed)!));
