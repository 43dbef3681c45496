import type { Verdict } from '../../checks/index.js';
import type { Severity } from '../../findings/index.js';
import type { VisitState } from '../../settlement/index.js';

/** How a mark looks. The word on it says all; colour and sign only help the eye. */
export type MarkTone = 'bad' | 'warn' | 'good' | 'plain';

/** What a mark of ours looks like, and says. */
interface MarkLook {
  readonly tone: MarkTone;
  readonly sign: string;
  readonly word: string;
}

/** A state in a word, with a sign before it and a tint. */
export function Mark({ tone, sign, word }: MarkLook) {
  return (
    <span class={`mark mark-${tone}`}>
      <span class="sign" aria-hidden="true">
        {sign}
      </span>
      {word}
    </span>
  );
}

const SEVERITIES: Readonly<Record<Severity, MarkLook>> = {
  fault: { tone: 'bad', sign: '×', word: 'fault' },
  doubt: { tone: 'warn', sign: '?', word: 'doubt' },
  note: { tone: 'plain', sign: '·', word: 'note' },
};

/** How much a finding weighs. */
export function SeverityMark({ severity }: { readonly severity: Severity }) {
  return <Mark {...SEVERITIES[severity]} />;
}

const VERDICTS: Readonly<Record<Verdict, MarkLook>> = {
  sound: { tone: 'good', sign: '=', word: 'sound' },
  doubtful: { tone: 'warn', sign: '?', word: 'doubtful' },
  'read-again': { tone: 'bad', sign: '×', word: 'read again' },
};

/** What is said of a capture. */
export function VerdictMark({ verdict }: { readonly verdict: Verdict }) {
  return <Mark {...VERDICTS[verdict]} />;
}

const STATES: Readonly<Record<VisitState, MarkLook>> = {
  agreed: { tone: 'good', sign: '=', word: 'agreed' },
  over: { tone: 'warn', sign: '+', word: 'over' },
  short: { tone: 'bad', sign: '−', word: 'short' },
  uncounted: { tone: 'warn', sign: '?', word: 'uncounted' },
  unread: { tone: 'warn', sign: '?', word: 'unread' },
  unsettled: { tone: 'bad', sign: '×', word: 'unsettled' },
};

/** How a visit came out. */
export function VisitMark({ state }: { readonly state: VisitState }) {
  return <Mark {...STATES[state]} />;
}
