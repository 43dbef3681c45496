import { type Finding, makeFinding, printable } from '../findings/index.js';
import { weighFindings } from '../profile/index.js';
import type { Read } from '../read/index.js';
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
    for (const finding of found) findings.push({ file: context.file, read: read.number, ...finding });
  }
  return findings === null ? [] : weighFindings(findings, context.profile);
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
