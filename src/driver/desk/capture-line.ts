import { nameOfSummary, type Verdict } from '../../checks/index.js';
import { CABINET_CAUTIONS, cautionsOf, type Finding, sayCautions } from '../../findings/index.js';
import type { CheckedPart } from './check-sent-file.js';
import type { CaptureLine } from './messages.js';

/** Worst first. */
export const VERDICTS: readonly Verdict[] = ['read-again', 'doubtful', 'sound'];

/** What the list of all captures says of one: it is as bad as the worst of its parts. */
export function describeCapture(id: number, parts: readonly CheckedPart[]): CaptureLine {
  const worst = VERDICTS.map((verdict) => parts.find((part) => part.verdict === verdict)).find(Boolean)!;
  const read = parts[0]!.reads[0];
  return {
    id,
    file: worst.file,
    verdict: worst.verdict,
    headline: worst.headline,
    machine: read === undefined ? null : nameOfSummary(read),
    clock: read?.clock ?? null,
    cautions: cautionsOfVerdict(
      worst.verdict,
      parts.flatMap(({ findings }) => findings),
    ),
  };
}

/** The cautions of a verdict: to read a machine again is to go to its cabinet again, whatever the finding is. */
export function cautionsOfVerdict(verdict: Verdict, findings: readonly Finding[]): readonly string[] {
  return sayCautions([...cautionsOf(findings), ...(verdict === 'sound' ? [] : CABINET_CAUTIONS)]);
}
