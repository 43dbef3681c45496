import type { AttentionItem } from '../../attention/index.js';
import { CAUTIONS } from '../../checks/index.js';
import type { Day } from '../../day/index.js';
import type { AttentionJson, DayJson } from '../shapes/day.js';
import { findingToJson } from './finding-json.js';
import { settlementToJson } from './settlement-json.js';

/** A day as programs get it. */
export function dayToJson(day: Day): DayJson {
  const { files, machines, totals, attention, sales, cash, settlements, refill } = day;
  return {
    day: day.day,
    files,
    machines,
    totals: [...totals],
    attention: attention.map(attentionToJson),
    sales: sales.map((row) => ({ ...row, flags: [...row.flags] })),
    cash: cash.map((row) => ({ ...row, flags: [...row.flags] })),
    settlements: settlements.map(settlementToJson),
    refill: refill.map((row) => ({ ...row, flags: [...row.flags] })),
  };
}

/** One line of what has to be looked at, its cautions in full. */
export function attentionToJson(item: AttentionItem): AttentionJson {
  return {
    ...item,
    cautions: item.cautions.map((name) => CAUTIONS[name]),
    codes: [...item.codes],
    findings: item.findings.map(findingToJson),
  };
}
