import { currencyByAlpha, type MachineRow } from '../model/index.js';

/** What must be known of a machine's money before an amount in a sheet can be read. */
export interface MoneyRules {
  /** Decimals of a machine's money; null when not known, and then {@link defaultDecimals} holds. */
  decimalsOf(machine: string): number | null;
  /** ISO 4217 alphabetic code, upper case; null when not known. */
  currencyOf(machine: string): string | null;
  /** Decimals for machines of which nothing is known. Null: their amounts are refused. */
  readonly defaultDecimals: number | null;
}

/**
 * Money rules from the machine roster: decimals as its `decimals` column says, else as ISO 4217 gives them for its
 * currency, else the caller's.
 *
 * @param machines - rows of the roster; of two with one name the first holds
 * @param defaultDecimals - decimals for machines that the roster lacks or says nothing of, such as an option of the user;
 *   null when there are none
 */
export function decimalsFromRoster(machines: readonly MachineRow[], defaultDecimals: number | null): MoneyRules {
  const byName = new Map(machines.toReversed().map((row) => [row.machine, row]));
  const currencyOf = (machine: string): string | null => byName.get(machine)?.currency ?? null;
  return {
    currencyOf,
    decimalsOf(machine) {
      return byName.get(machine)?.decimals ?? currencyByAlpha(currencyOf(machine) ?? '')?.decimals ?? null;
    },
    defaultDecimals,
  };
}
