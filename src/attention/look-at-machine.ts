import type { CaptureCheck } from '../checks/index.js';
import { compareSeverity, type Finding, worstSeverity } from '../findings/index.js';
import type { AttentionCause, AttentionItem } from './attention-item.js';
import { isListed } from './causes.js';
import { gatherFindings } from './gather-findings.js';
import { type MachineDay, moneyOfMachine } from './machine-day.js';
import { CAUSE_RULES } from './rules/index.js';

/** What a person has to look at about one machine: one item a cause, several findings of one cause merged into one. */
export function lookAtMachine(day: MachineDay): AttentionItem[] {
  return [...gatherFindings(day)].map(([cause, findings]) => makeItem(cause, findings, day));
}

/** What a person has to look at about files in which there is no read: one item for all of them. */
export function lookAtSetAside(checks: readonly CaptureCheck[], nobody: MachineDay): AttentionItem[] {
  const findings = checks.flatMap((check) => check.findings).filter(isListed);
  return findings.length === 0 ? [] : [makeItem('set-aside', findings, nobody)];
}

function makeItem(cause: AttentionCause, findings: readonly Finding[], day: MachineDay): AttentionItem {
  const { todo, cautions, tell, weigh } = CAUSE_RULES[cause];
  const { name, location, route, driver } = day.name;
  const sorted = findings.toSorted(compareSeverity);
  return {
    machine: name,
    location,
    route,
    driver,
    cause,
    severity: worstSeverity(findings)!,
    what: tell(findings, day),
    stake: weigh(findings, day),
    ...moneyOfMachine(day),
    todo,
    cautions,
    codes: [...new Set(sorted.map(({ code }) => code))],
    findings: sorted,
  };
}
