import type { AttentionItem } from '../../attention/index.js';
import type { Day } from '../../day/index.js';
import { sayCautions } from '../../findings/index.js';
import type { AttentionJson, DayJson, StaleDay } from '../shapes/day.js';
import { findingToJson } from './finding-json.js';
import { settlementToJson } from './settlement-json.js';

/**
 * A day as programs get it; its rows of columns and machines stand in tables.
 *
 * @param staleDays - other days whose tables are to be made again
 */
export function dayToJson(
  { day, files, machines, totals, attention, settlements, adjusted }: Day,
  staleDays: readonly StaleDay[] = [],
): DayJson {
  return {
    day,
    files,
    machines,
    totals: [...totals],
    attention: attention.map(attentionToJson),
    settlements: settlements.map(settlementToJson),
    adjustments: adjusted.map(({ because, machines, drivers, ...round }) => ({
      ...round,
      because: [...because],
      machines: [...machines],
      drivers: [...drivers],
    })),
    staleDays: [...staleDays],
  };
}

/** One line of what has to be looked at, its cautions in full. */
export function attentionToJson(item: AttentionItem): AttentionJson {
  return {
    ...item,
    cautions: sayCautions(item.cautions),
    codes: [...item.codes],
    findings: item.findings.map(findingToJson),
  };
}
