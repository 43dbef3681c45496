import { makeFinding } from '../findings/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { writeWhen } from './wording.js';

// How good a signal is, by the strength a modem reports from 1 to 31 (common practice).
const GOOD = 13;
const MARGINAL = 7;

/** A signal strength in words: good, marginal or weak. */
export function nameSignal(strength: number): 'good' | 'marginal' | 'weak' {
  if (strength >= GOOD) return 'good';
  return strength >= MARGINAL ? 'marginal' : 'weak';
}

/** A sentence on how a capture was received, to stand behind what is wrong with it; empty when nothing is known. */
export function describeReception({ receivedAt, signal }: CheckContext): string {
  if (receivedAt === null && signal === null) return '';
  const when = receivedAt === null ? '' : ` ${writeWhen(receivedAt)}`;
  const how = signal === null ? '' : ` with a ${nameSignal(signal)} signal (${signal} of 31)`;
  return ` It was received${when}${how}.`;
}

/** Puts the signal beside a capture that was cut or damaged. */
export const signalCheck: Check = {
  codes: ['weak-signal'],
  summary: 'Whether less than a good signal may explain a capture that is cut or damaged.',
  reference: 'common practice',
  run(read, { signal }) {
    if (signal === null || signal >= GOOD) return NOTHING;
    if (read.isComplete && read.integrity.state !== 'damaged') return NOTHING;
    return [
      makeFinding(
        'weak-signal',
        `The modem reported a ${nameSignal(signal)} signal (${signal} of 31): gaps in transmission are to be expected.`,
        {
          read: read.number,
          received: String(signal),
          advice: 'Read the machine at the machine, or ask for it again at another time.',
        },
      ),
    ];
  },
};
