import { type CaptureCheck, writeHeadline } from '../checks/index.js';
import type { Finding } from '../findings/index.js';

/**
 * The checks of a day's files without what they say of the clock of a copy: a clock is judged by the earliest arrival of a read
 * (domain rule), and of a read that came twice it is said once.
 *
 * @param findings - those on the order of reads: which of them are copies (`duplicate-read`)
 */
export function dropClocksOfCopies(
  checks: readonly CaptureCheck[],
  findings: readonly Finding[],
): readonly CaptureCheck[] {
  const copies = new Set(findings.filter(({ code }) => code === 'duplicate-read').map(placeOf));
  if (copies.size === 0) return checks;
  return checks.map((check) => {
    const kept = check.findings.filter(
      (finding) => finding.code !== 'clock-wrong' || !copies.has(placeOf({ file: check.file, ...finding })),
    );
    if (kept.length === check.findings.length) return check;
    const verdict = kept.some(({ severity }) => severity !== 'note') ? check.verdict : 'sound';
    return { ...check, verdict, headline: writeHeadline(verdict, kept), findings: kept };
  });
}

const placeOf = ({ file, read }: Pick<Finding, 'file' | 'read'>): string => `${file} ${read}`;
