import fc from 'fast-check';
import { arbitraryHistory, type History, type HistoryChoice } from './history.js';

/** One machine of a round: the operator's name for it, its asset number as its captures have it, and its life. */
export interface RoundMachine {
  readonly machine: string;
  readonly asset: string;
  readonly history: History;
}

/** What a random round may hold. */
export interface RoundChoice extends HistoryChoice {
  /** Default 1 to 4. */
  readonly minMachines?: number;
  readonly maxMachines?: number;
}

/** Random lives of several machines with names of their own. Give `machine.money` one currency for sums over all of them. */
export function arbitraryRound(choice: RoundChoice = {}): fc.Arbitrary<readonly RoundMachine[]> {
  const { minMachines = 1, maxMachines = 4 } = choice;
  return fc.integer({ min: minMachines, max: maxMachines }).chain((count) => {
    const machines = Array.from({ length: count }, (_, index) => {
      const number = index + 1;
      const asset = `A10${number}`;
      const identity = {
        asset,
        serial: `SN10000${number}`,
        board: `CB50000${number}`,
        communicationId: `TST000000${number}`,
      };
      const machine = { ...choice.machine, identity: { ...choice.machine?.identity, ...identity } };
      const history = arbitraryHistory({ ...choice, machine });
      return history.map((life): RoundMachine => ({ machine: `M${number}`, asset, history: life }));
    });
    return fc.tuple(...machines);
  });
}
