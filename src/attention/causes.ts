import type { Finding, FindingCode } from '../findings/index.js';
import type { Visit } from '../settlement/index.js';
import type { AttentionCause } from './attention-item.js';

/**
 * The cause under which a finding is listed, by its code. What a capture is worth is listed as `capture-doubtful` unless a
 * fault makes it `read-again`; what a visit shows as `bag-open` unless its state says more (see `causeOfVisit`).
 */
export const CAUSE_OF_CODE: Readonly<Record<FindingCode, AttentionCause>> = {
  'integrity-damaged': 'capture-doubtful',
  'integrity-absent': 'capture-doubtful',
  'integrity-byte-order': 'capture-doubtful',
  'integrity-line-endings': 'capture-doubtful',
  'integrity-range': 'capture-doubtful',
  'cut-short': 'capture-doubtful',
  'segment-count': 'capture-doubtful',
  'control-number': 'capture-doubtful',
  'set-count': 'capture-doubtful',
  'envelope-missing': 'capture-doubtful',
  'loop-open': 'capture-doubtful',
  'missing-segment': 'capture-doubtful',
  'repeated-segment': 'capture-doubtful',
  'orphan-segment': 'capture-doubtful',
  'unknown-segment': 'capture-doubtful',
  'not-a-number': 'capture-doubtful',
  'bad-date': 'capture-doubtful',
  'junk-before': 'capture-doubtful',
  'junk-between': 'capture-doubtful',
  'reads-unlisted': 'capture-doubtful',
  padding: 'capture-doubtful',
  'overlong-element': 'capture-doubtful',
  'overlong-set': 'capture-doubtful',
  'control-character': 'capture-doubtful',
  'value-too-large': 'capture-doubtful',
  'last-line-open': 'capture-doubtful',
  'weak-signal': 'capture-doubtful',
  'test-vend-missing': 'capture-doubtful',
  'duplicate-read': 'capture-doubtful',
  'out-of-order': 'capture-doubtful',
  relabelled: 'capture-doubtful',
  'empty-file': 'set-aside',
  'not-a-capture': 'set-aside',
  'file-too-large': 'set-aside',
  'unreadable-file': 'set-aside',
  'clock-wrong': 'clock-wrong',
  'clock-jump': 'clock-wrong',
  'device-missing': 'device-silent',
  'event-active': 'fault-active',
  'other-machine': 'other-machine',
  'unknown-machine': 'unknown-machine',
  'change-short': 'change-short',
  'currency-differs': 'money-unit',
  'decimals-unknown': 'money-unit',
  'currency-changed': 'money-unit',
  'mixed-currency': 'money-unit',
  'counter-rollover': 'counters-back',
  'counter-backward': 'counters-back',
  'memory-cleared': 'counters-back',
  'board-changed': 'counters-back',
  'restart-inside': 'counters-back',
  'unseen-reset': 'counters-missing',
  'absent-counter': 'counters-missing',
  'column-appeared': 'counters-missing',
  'column-gone': 'counters-missing',
  'price-off-plan': 'price-off-plan',
  'price-changed': 'price-off-plan',
  'price-mismatch': 'money-unexplained',
  'cross-total': 'money-unexplained',
  'cash-split': 'money-unexplained',
  'bills-as-count': 'money-unexplained',
  'cash-as-card': 'money-unexplained',
  'cash-sales-difference': 'money-unexplained',
  'credit-standing': 'money-unexplained',
  'tube-difference': 'tube-difference',
  over: 'bag-open',
  short: 'bag-open',
  'kinds-differ': 'bag-open',
  uncounted: 'bag-open',
  'no-capture': 'bag-open',
  'no-opening': 'bag-open',
  'two-captures': 'bag-open',
  'two-counts': 'bag-open',
  'joint-bags': 'bag-open',
  'capture-unusable': 'bag-open',
  'match-by-date': 'bag-open',
  'round-adjusted': 'round-adjusted',
  'one-sided': 'one-sided',
  'deposit-sum': 'accounts-open',
  'deposit-differs': 'accounts-open',
  'deposit-missing': 'accounts-open',
  'deposit-extra': 'accounts-open',
  'deposit-unclear': 'accounts-open',
  'sales-not-known': 'accounts-open',
  'sales-floor': 'accounts-open',
  'read-before-end': 'accounts-open',
  'rate-missing': 'accounts-open',
  'not-read-today': 'not-read',
  'sold-out': 'sold-out',
  'sales-stopped': 'sales-stopped',
  'sheet-unreadable': 'office-sheet',
  'sheet-column-missing': 'office-sheet',
  'sheet-column-repeated': 'office-sheet',
  'sheet-empty': 'office-sheet',
  'sheet-column-unknown': 'office-sheet',
  'bad-row': 'office-sheet',
  'correction-refused': 'office-sheet',
  'bad-cell': 'office-sheet',
  'ambiguous-date': 'office-sheet',
  'ambiguous-number': 'office-sheet',
  'duplicate-row': 'office-sheet',
  'sheet-format': 'office-sheet',
  'profile-invalid': 'office-sheet',
  'unknown-profile': 'office-sheet',
  'check-crashed': 'program',
};

/** What has to be looked at: notes are good to know and not listed. */
export function isListed({ severity }: Finding): boolean {
  return severity !== 'note';
}

/** Whether a finding is about what a capture is worth, whatever machine it is of. */
export function isAboutCapture({ code }: Finding): boolean {
  return CAUSE_OF_CODE[code] === 'capture-doubtful';
}

/** Whether a capture with these findings has to be read again. */
export function isToReadAgain(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === 'fault' && isAboutCapture(finding));
}

/** The cause under which all that is in the way of one visit is listed. */
export function causeOfVisit({ state, findings }: Visit): 'bag-differs' | 'bag-uncounted' | 'bag-open' {
  if (state === 'over' || state === 'short') return 'bag-differs';
  if (state === 'agreed' && findings.some(({ code }) => code === 'kinds-differ')) return 'bag-differs';
  return state === 'uncounted' ? 'bag-uncounted' : 'bag-open';
}
