import { printable } from '../../findings/index.js';
import type { FindingJson } from '../../report/index.js';
import { adviceWords, placeWords, SEVERITY_WORDS } from './words.js';

/** So many findings are shown; the rest is counted. */
const MOST_SHOWN = 60;

/** Findings, worst first, each with what to do and where it stands. */
export function FindingsList({ findings, file }: { findings: readonly FindingJson[]; file: string | null }) {
  const rest = findings.length - MOST_SHOWN;
  return (
    <>
      <ul class="findings">
        {findings.slice(0, MOST_SHOWN).map((finding, i) => (
          <li key={i} class={`finding ${finding.severity}`}>
            <p>
              <strong class="weight">{SEVERITY_WORDS[finding.severity]}</strong> {printable(finding.message, 1200)}
            </p>
            {finding.advice === null ? null : <p class="todo">Do: {adviceWords(finding.advice)}</p>}
            <p class="place">{placeWords(finding, file)}</p>
          </li>
        ))}
      </ul>
      {rest > 0 ? <p>And {rest} more; “Save as JSON” lists them all.</p> : null}
    </>
  );
}
