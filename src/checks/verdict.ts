import { type Finding, worstSeverity } from '../findings/index.js';

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
 * are shown in full beside it.
 *
 * @param findings - worst first
 */
export function writeHeadline(verdict: Verdict, findings: readonly Finding[]): string {
  const worst = findings[0];
  if (verdict === 'sound' || worst === undefined) return `${VERDICT_WORDS[verdict]}: nothing to do.`;
  const { advice, cautions = [] } = worst;
  const todo = advice === undefined ? worst.message : firstSentence(advice);
  const more = cautions.includes('inside') ? ' Mind the cautions below.' : '';
  return `${VERDICT_WORDS[verdict]}: ${todo.charAt(0).toLowerCase()}${todo.slice(1)}${more}`;
}

/** The first sentence of an advice: the thing to do. */
export function firstSentence(advice: string): string {
  const end = advice.search(/\.(\s|$)/);
  return end < 0 ? advice : advice.slice(0, end + 1);
}
