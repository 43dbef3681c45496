import { type Finding, makeFinding, printable } from '../findings/index.js';
import { weighFindings } from '../profile/index.js';
import { LimitedFindings, type Read } from '../read/index.js';
import type { Check, CheckContext } from './check.js';
import { CHECKS } from './checks.js';

/**
 * Run all checks on one read.
 *
 * Nothing in a capture makes it throw: a check that crashes becomes a `check-crashed` finding, and the others still run.
 *
 * @param checks - in place of all of them
 * @returns the findings in the order of the checks, with file and read filled in and weighed as the profile says
 */
export function checkRead(read: Read, context: CheckContext, checks: readonly Check[] = CHECKS): readonly Finding[] {
  let findings: Finding[] | null = null;
  for (const check of checks) {
    const found = runCheck(check, read, context);
    if (found.length === 0) continue;
    findings ??= [];
    for (const finding of limit(found)) findings.push({ file: context.file, read: read.number, ...finding });
  }
  return findings === null ? [] : weighFindings(findings, context.profile);
}

/** A capture in order gives a check at most one finding a column; a hostile one may give it millions. */
const MOST_OF_ONE_CHECK = 1000;

function limit(found: readonly Finding[]): readonly Finding[] {
  if (found.length <= MOST_OF_ONE_CHECK) return found;
  const limited = new LimitedFindings(MOST_OF_ONE_CHECK);
  for (const finding of found) limited.push(finding);
  return limited.list();
}

function runCheck(check: Check, read: Read, context: CheckContext): readonly Finding[] {
  try {
    return check.run(read, context);
  } catch (error) {
    const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    return [
      makeFinding('check-crashed', `A check failed (${check.codes.join(', ')}): ${printable(what, 200)}`, {
        read: read.number,
        advice: 'This is a defect of the program: report it with the capture. The other checks were made.',
      }),
    ];
  }
}
