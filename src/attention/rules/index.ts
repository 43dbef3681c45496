import type { AttentionCause } from '../attention-item.js';
import type { CauseRule } from '../cause-rule.js';
import { bagDiffersRule, bagOpenRule, bagUncountedRule, oneSidedRule, roundAdjustedRule } from './bags.js';
import {
  captureDoubtfulRule,
  notReadRule,
  otherMachineRule,
  readAgainRule,
  setAsideRule,
  unknownMachineRule,
} from './captures.js';
import { countersBackRule, countersMissingRule } from './counters.js';
import { changeShortRule, clockWrongRule, deviceSilentRule, faultActiveRule } from './devices.js';
import { moneyUnexplainedRule, tubeDifferenceRule } from './money.js';
import { accountsOpenRule, moneyUnitRule, officeSheetRule, programRule } from './office.js';
import { priceOffPlanRule } from './prices.js';
import { salesStoppedRule } from './sales-stopped.js';
import { soldOutRule } from './stock.js';

/** The rule of every cause. */
export const CAUSE_RULES: Readonly<Record<AttentionCause, CauseRule>> = {
  'read-again': readAgainRule,
  'not-read': notReadRule,
  'other-machine': otherMachineRule,
  'unknown-machine': unknownMachineRule,
  'counters-back': countersBackRule,
  'bag-differs': bagDiffersRule,
  'round-adjusted': roundAdjustedRule,
  'one-sided': oneSidedRule,
  'bag-uncounted': bagUncountedRule,
  'bag-open': bagOpenRule,
  'sales-stopped': salesStoppedRule,
  'fault-active': faultActiveRule,
  'device-silent': deviceSilentRule,
  'sold-out': soldOutRule,
  'price-off-plan': priceOffPlanRule,
  'tube-difference': tubeDifferenceRule,
  'money-unexplained': moneyUnexplainedRule,
  'accounts-open': accountsOpenRule,
  'counters-missing': countersMissingRule,
  'money-unit': moneyUnitRule,
  'change-short': changeShortRule,
  'clock-wrong': clockWrongRule,
  'capture-doubtful': captureDoubtfulRule,
  'set-aside': setAsideRule,
  'office-sheet': officeSheetRule,
  program: programRule,
};
