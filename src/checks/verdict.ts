import { type Finding, worstSeverity } from '../findings/index.js';
import { CAUTIONS, firstSentence } from './cautions.js';

/** What a capture is good for: use it, look at it, or read the machine again. */
export type Verdict = 'sound' | 'doubtful' | 'read-again';

/**
 * A fault makes it `read-again`, a doubt `doubtful`; notes leave it `sound`.
 *
 * @param isStrict - a doubt counts as a fault
 */
export function judge(findings: readonly Finding[], isStrict = false): Verdict {
  const worst = worstSeverity(findings);
  if (worst === 'fault' || (isStrict && worst === 'doubt')) return 'read-again';
  return worst === 'doubt' ? 'doubtful' : 'sound';
}

const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  sound: 'Sound',
  doubtful: 'Doubtful',
  'read-again': 'Read again',
};

/**
 * One line: the verdict and the one thing to do. Where that sends a hand into a cabinet it points to the cautions, which
 * stand in full in the finding's advice.
 *
 * @param findings - worst first
 */
export function writeHeadline(verdict: Verdict, findings: readonly Finding[]): string {
  const worst = findings[0];
  if (verdict === 'sound' || worst === undefined) return `${VERDICT_WORDS[verdict]}: nothing to do.`;
  const advice = worst.advice;
  const todo = advice === undefined ? worst.message : firstSentence(advice);
  const cautions = advice?.includes(CAUTIONS.inside) ? ' Mind the cautions below.' : '';
  return `${VERDICT_WORDS[verdict]}: ${todo.charAt(0).toLowerCase()}${todo.slice(1)}${cautions}`;
}
