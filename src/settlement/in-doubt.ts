import { isDoubtOfFigures } from '../checks/index.js';
import type { FindingCode } from '../findings/index.js';
import type { Visit } from './settlement.js';
import { isSettled } from './sum-visits.js';

/** Doubts of what an interval tells that bear on what should be in a bag. */
const OF_CASH: ReadonlySet<FindingCode> = new Set<FindingCode>([
  'cash-split',
  'cash-sales-difference',
  'credit-standing',
  'counter-backward',
]);

/** Whether a visit is settled, and there is a doubt whether what was expected is right: it agrees only as far as that is so. */
export function isInDoubt(visit: Visit): boolean {
  const { findings } = visit;
  return (
    isSettled(visit) &&
    findings.some((finding) => isDoubtOfFigures(finding) || (finding.severity !== 'note' && OF_CASH.has(finding.code)))
  );
}
