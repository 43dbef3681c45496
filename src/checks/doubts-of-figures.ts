import type { Finding, FindingCode } from '../findings/index.js';

/**
 * What is said of a capture that bears on every figure taken from it. Not among them: what is to be mended at the machine and
 * leaves its counters as they are (an active fault, little change, a wrong clock); what a capture does not have (a segment, a
 * device), since figures that need it are not known anyway; and what is said of figures wherever they are (a price off plan, a
 * machine that is on no roster).
 */
const BEARS_ON_FIGURES: ReadonlySet<FindingCode> = new Set<FindingCode>([
  'integrity-damaged',
  'integrity-absent',
  'integrity-byte-order',
  'integrity-line-endings',
  'integrity-range',
  'cut-short',
  'segment-count',
  'control-number',
  'set-count',
  'envelope-missing',
  'loop-open',
  'repeated-segment',
  'orphan-segment',
  'unknown-segment',
  'not-a-number',
  'value-too-large',
  'bad-date',
  'overlong-element',
  'control-character',
  'currency-differs',
  'cross-total',
  'unknown-profile',
]);

/** Whether a finding is a doubt of a capture that bears on the figures taken from it. */
export function isDoubtOfFigures({ code, severity }: Pick<Finding, 'code' | 'severity'>): boolean {
  return severity === 'doubt' && BEARS_ON_FIGURES.has(code);
}
