import type { ElementDef } from '../dictionary/index.js';
import { FINDING_CODES } from '../findings/index.js';
import type { Difference, Interval, TakenRead, UnknownWhy } from '../interval/index.js';
import { makeStep, negate, sumOf, type TraceStep, unknownStep } from './trace-step.js';

const WHY: Readonly<Record<UnknownWhy, string>> = {
  absent: 'Neither read has this counter; absent is not zero.',
  'absent-now': 'The later read does not have this counter any more; absent is not zero.',
  renumbered:
    'Columns may have changed their numbers: it rose by more than the machine sold, and that of another one fell.',
  'absent-before': 'The earlier read does not have this counter, and nothing shows that it stood at 0.',
  backward: 'The counter went down, and no cause was found.',
  'reset-not-known': 'There is no lifetime counter, and it cannot be told who cleared this one when.',
};

/** What a counter moved by between two reads: the element at the later read less the element at the earlier. */
export function traceDifference(
  label: string,
  difference: Difference,
  { from, to }: Pick<Interval, 'from' | 'to'>,
): TraceStep {
  const { element, column, value, why, modulus } = difference;
  const unit = element.kind === 'count' ? 'count' : 'money';
  const parts: TraceStep[] = [];
  if (difference.to !== null) parts.push(readStep('at the later read', to, element, column, difference.to));
  if (difference.from !== null) {
    parts.push(negate(readStep('at the earlier read', from, element, column, difference.from)));
  }
  if (value === null) return unknownStep(label, unit, why === null ? null : WHY[why], parts);
  if (modulus !== null) {
    parts.push(makeStep({ how: 'constant', label: 'added, since it ran past its last digit', value: modulus, unit }));
  }
  // A counter that is not there any more and stood at 0 still stands at 0.
  if (difference.to === null) return makeStep({ how: 'constant', label, value, unit, note: noteOn(difference) });
  return sumOf(label, unit, parts, noteOn(difference));
}

/** An element as a read gives it. */
export function readStep(
  when: string,
  taken: TakenRead,
  element: ElementDef,
  column: string | null,
  value: number | null,
): TraceStep {
  const { read, file } = taken;
  const place = column === null ? read.place(element) : (read.column(column)?.place(element) ?? null);
  return makeStep({
    how: value === null ? 'unknown' : 'element',
    label: `${element.name} ${element.meaning}, ${when}`,
    value,
    unit: element.kind === 'count' ? 'count' : 'money',
    place: { file, ...place },
    note: value === null ? 'It is not there.' : noteOnRead(taken),
  });
}

/** What is read off a capture in doubt is in doubt. */
function noteOnRead({ doubts }: TakenRead): string | null {
  const titles = new Set(doubts.map(({ code }) => FINDING_CODES[code].title));
  return titles.size === 0 ? null : `Its capture is in doubt: ${[...titles].join('; ')}.`;
}

function noteOn({ basis, from, to, floor }: Difference): string | null {
  const notes: string[] = [];
  if (basis === 'restart')
    notes.push('The counters started again; what they show since then is the least it can have been.');
  else if (basis === 'interval') {
    notes.push(
      `It is a counter since the last reset, for want of one since initialisation${from === null ? '; the earlier read left it at 0' : ''}.`,
    );
  } else if (to === null) notes.push('It stood at 0 and this machine leaves zero segments out: still 0.');
  else if (from === null) notes.push('The earlier read does not have it; it stood at 0 then.');
  if (floor && basis !== 'restart') notes.push('The true figure may be higher.');
  return notes.length === 0 ? null : notes.join(' ');
}
