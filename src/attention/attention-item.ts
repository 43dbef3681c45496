import type { CautionName, Finding, FindingCode, Severity } from '../findings/index.js';
import type { Stake } from './stake.js';

/**
 * What may have to be looked at, one cause a line. The order is that of items with nothing else to tell them apart: what
 * leaves the accounts without figures first, what is only to be put in order last.
 */
export const ATTENTION_CAUSES = [
  'read-again',
  'not-read',
  'other-machine',
  'unknown-machine',
  'counters-back',
  'bag-differs',
  'round-adjusted',
  'one-sided',
  'bag-uncounted',
  'bag-open',
  'sales-stopped',
  'fault-active',
  'device-silent',
  'sold-out',
  'price-off-plan',
  'tube-difference',
  'money-unexplained',
  'accounts-open',
  'counters-missing',
  'money-unit',
  'change-short',
  'clock-wrong',
  'capture-doubtful',
  'set-aside',
  'office-sheet',
  'program',
] as const;

/** Why something has to be looked at. */
export type AttentionCause = (typeof ATTENTION_CAUSES)[number];

/** One line of the list of what a person has to look at: one machine, one cause. */
export interface AttentionItem {
  /** The operator's name of the machine; on no roster, what it calls itself (`asset A1`); null for no machine at all. */
  readonly machine: string | null;
  readonly location: string | null;
  readonly route: string | null;
  readonly driver: string | null;
  readonly cause: AttentionCause;
  /** The worst of its findings. */
  readonly severity: Severity;
  /** What is wrong, in plain words. */
  readonly what: string;
  /** What it may cost, and how that was estimated. */
  readonly stake: Stake;
  /** The money of the stake. */
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly todo: string;
  /** The cautions that go with `todo`. */
  readonly cautions: readonly CautionName[];
  /** Codes of the findings, each once, worst first. */
  readonly codes: readonly FindingCode[];
  /** All that was found of this cause on this machine, worst first. */
  readonly findings: readonly Finding[];
}
