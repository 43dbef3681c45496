import type { z } from 'zod';
import { depositsShape, statementShape } from './accounts.js';
import { checkShape } from './check.js';
import { dayShape } from './day.js';
import { explanationShape, figureShape } from './explanation.js';
import { findingShape, onlyGeneralShape } from './finding.js';
import { installShape } from './install.js';
import { intervalShape } from './interval.js';
import { settlementShape } from './settlement.js';

export type { DepositsJson, StatementJson } from './accounts.js';
export type { CheckJson } from './check.js';
export type { AttentionJson, DayJson } from './day.js';
export type { ExplanationJson, FigureJson } from './explanation.js';
export type { FindingJson } from './finding.js';
export type { InstallJson } from './install.js';
export type { IntervalJson } from './interval.js';
export type { SettlementJson } from './settlement.js';

/** Every shape that a command prints as JSON, by the name of its schema under `schemas/`. */
export const SHAPES = {
  check: checkShape,
  install: installShape,
  interval: intervalShape,
  settlement: settlementShape,
  deposits: depositsShape,
  statement: statementShape,
  day: dayShape,
  explanation: explanationShape,
  figure: figureShape,
  finding: findingShape,
  general: onlyGeneralShape,
} as const satisfies Record<string, z.ZodType>;
