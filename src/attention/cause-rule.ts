import { type CautionName, compareSeverity, type Finding } from '../findings/index.js';
import type { AttentionCause } from './attention-item.js';
import type { MachineDay } from './machine-day.js';
import type { Stake } from './stake.js';

/** How one cause is put into a line of the list. */
export interface CauseRule {
  readonly cause: AttentionCause;
  readonly todo: string;
  /** The cautions that go with `todo`: what sends a hand into a cabinet carries them. */
  readonly cautions: readonly CautionName[];
  /** What is wrong, in plain words. */
  readonly tell: (findings: readonly Finding[], day: MachineDay) => string;
  /** What it may cost, by the rule of this cause. */
  readonly weigh: (findings: readonly Finding[], day: MachineDay) => Stake;
}

/** The worst finding in its own words, and how many others there are; those that say the same count once. */
export function tellWorst(findings: readonly Finding[]): string {
  const messages = [...new Set(findings.toSorted(compareSeverity).map(({ message }) => message))];
  const more = messages.length - 1;
  return more > 0 ? `${messages[0]} (And ${more} more.)` : messages[0]!;
}

/** What is in the findings under one key, each once, in their order. */
export function distinct<T>(findings: readonly Finding[], pick: (finding: Finding) => T | undefined): T[] {
  return [...new Set(findings.map(pick))].filter((value) => value !== undefined);
}
