import type { CountRow, MachineRow } from '../model/index.js';
import type { MoneyRules, Roster } from '../sheets/index.js';
import type { MachineReads } from './machine-reads.js';
import type { UnlistedCaptures } from './near-captures.js';
import type { RefusedRows } from './refused-rows.js';
import type { SettleRules } from './settle-options.js';
import type { MoneyUnit } from './visit-teller.js';

/** What the visits of one machine are worked out with. */
export interface VisitContext {
  /** The operator's name of the machine, and its row on the roster. */
  readonly name: string;
  readonly machine: MachineRow | null;
  readonly reads: MachineReads;
  readonly roster: Roster;
  readonly rules: SettleRules;
  /** In which money the count sheet's amounts were read. */
  readonly sheetMoney: MoneyRules;
  readonly refused: RefusedRows;
  /** Captures of machines that the roster lacks. */
  readonly unlisted: UnlistedCaptures;
}

/** The money of the count sheet's amounts for a machine. */
export function unitOfSheet({ sheetMoney, name }: VisitContext): MoneyUnit {
  return { currency: sheetMoney.currencyOf(name), decimals: sheetMoney.decimalsOf(name) ?? sheetMoney.defaultDecimals };
}

/** Whether amounts in two moneys may be held against each other; what is not known of one is taken to be the other's. */
export function isSameMoney(a: MoneyUnit, b: MoneyUnit): boolean {
  const differs = <T>(x: T | null, y: T | null): boolean => x !== null && y !== null && x !== y;
  return !differs(a.currency, b.currency) && !differs(a.decimals, b.decimals);
}

/** The route of a bag, else of its machine. */
export function routeOf(count: CountRow | undefined, machine: MachineRow | null): string | null {
  return count?.route ?? machine?.route ?? null;
}
