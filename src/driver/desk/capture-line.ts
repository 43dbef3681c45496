import { CABINET_CAUTIONS, CAUTIONS, nameOfSummary, type Verdict } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import { cautionsFor } from '../../report/text/cautions-text.js';
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
    cautions: cautionsOf(
      worst.verdict,
      parts.flatMap(({ findings }) => findings),
    ),
  };
}

const ALL: readonly string[] = Object.values(CAUTIONS);

/** The cautions of a verdict: to read a machine again is to go to its cabinet again, whatever the finding is. */
export function cautionsOf(verdict: Verdict, findings: readonly Finding[]): readonly string[] {
  const needed = new Set(cautionsFor(findings));
  if (verdict !== 'sound') for (const caution of CABINET_CAUTIONS) needed.add(caution);
  return ALL.filter((caution) => needed.has(caution));
}
